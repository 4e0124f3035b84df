#pragma once
// Which form of a word a number takes: the expression of a catalogue's header.

#include <memory>
#include <string_view>

namespace graftcast {

/// `nplurals=2; plural=(n != 1);` as gettext's manual describes it: an expression of C over n with
/// ?: || && == != < > <= >= + - * / % ! and parentheses.
class PluralRule {
 public:
  struct Node;
  /// As in English, one against all others.
  PluralRule();
  /// From the value of the header's Plural-Forms. Error: DataError where it is no such expression.
  explicit PluralRule(std::string_view plural_forms);
  PluralRule(PluralRule&&) noexcept;
  PluralRule& operator=(PluralRule&&) noexcept;
  ~PluralRule();

  /// Index of the form for `count`; 0 where the expression would divide by zero or leaves the forms.
  unsigned long form_of(unsigned long count) const noexcept;

 private:
  std::unique_ptr<const Node> expression_;
  unsigned long forms_ = 2;
};

}  // namespace graftcast
