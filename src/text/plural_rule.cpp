#include "text/plural_rule.hpp"

#include <array>
#include <charconv>
#include <string>

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

struct PluralRule::Node {
  std::string_view operation;  ///< `number`, `n`, `?`, or a sign of C.
  unsigned long number = 0;
  std::unique_ptr<const Node> first, second, third;
};

namespace {

using Node = PluralRule::Node;
using NodePointer = std::unique_ptr<const Node>;

constexpr int deepest = 64;
/// The longest rule of gettext's manual has 200 letters; a chain of signs costs a call each.
constexpr std::size_t longest_rule = 2000;

/// Signs of two operands by how loosely they bind.
constexpr std::array<std::array<std::string_view, 4>, 6> levels{{
    {"||"},
    {"&&"},
    {"==", "!="},
    {"<=", ">=", "<", ">"},
    {"+", "-"},
    {"*", "/", "%"},
}};

class Parser {
 public:
  explicit Parser(std::string_view text) : rest_(text) {}

  NodePointer whole() {
    if (rest_.size() > longest_rule) fail();
    NodePointer node = choice(0);
    skip_blanks();
    if (!rest_.empty() && rest_.front() != ';') fail();
    return node;
  }

 private:
  [[noreturn]] static void fail() {
    throw DataError({}, tr("the plural rule of the language's file cannot be read"),
                    tr("write it as gettext's manual shows, for example {example}",
                       "example"_a = "nplurals=2; plural=(n != 1);"));
  }

  void skip_blanks() {
    while (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '\n')) rest_.remove_prefix(1);
  }

  bool took(std::string_view sign) {
    skip_blanks();
    if (sign.empty() || !rest_.starts_with(sign)) return false;
    rest_.remove_prefix(sign.size());
    return true;
  }

  NodePointer choice(int depth) {
    if (depth > deepest) fail();
    NodePointer condition = binary(0, depth);
    if (!took("?")) return condition;
    auto node = std::make_unique<Node>();
    node->operation = "?";
    node->first = std::move(condition);
    node->second = choice(depth + 1);
    if (!took(":")) fail();
    node->third = choice(depth + 1);
    return node;
  }

  NodePointer binary(std::size_t level, int depth) {
    if (level == levels.size()) return single(depth);
    NodePointer left = binary(level + 1, depth);
    for (std::string_view sign = sign_of(level); !sign.empty(); sign = sign_of(level)) {
      auto node = std::make_unique<Node>();
      node->operation = sign;
      node->first = std::move(left);
      node->second = binary(level + 1, depth);
      left = std::move(node);
    }
    return left;
  }

  std::string_view sign_of(std::size_t level) {
    for (const std::string_view sign : levels[level]) {
      if (took(sign)) return sign;
    }
    return {};
  }

  NodePointer single(int depth) {
    if (depth > deepest) fail();
    auto node = std::make_unique<Node>();
    if (took("!")) {
      node->operation = "!";
      node->first = single(depth + 1);
    } else if (took("(")) {
      NodePointer inner = choice(depth + 1);
      if (!took(")")) fail();
      return inner;
    } else if (took("n")) {
      node->operation = "n";
    } else {
      node->operation = "number";
      const auto [end, problem] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), node->number);
      if (problem != std::errc{}) fail();
      rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    }
    return node;
  }

  std::string_view rest_;
};

unsigned long value_of(const Node& node, unsigned long n) noexcept;

unsigned long value_of_pair(std::string_view sign, unsigned long a, unsigned long b) noexcept {
  if (sign == "==") return a == b ? 1 : 0;
  if (sign == "!=") return a != b ? 1 : 0;
  if (sign == "<=") return a <= b ? 1 : 0;
  if (sign == ">=") return a >= b ? 1 : 0;
  if (sign == "<") return a < b ? 1 : 0;
  if (sign == ">") return a > b ? 1 : 0;
  if (sign == "+") return a + b;
  if (sign == "-") return a - b;
  if (sign == "*") return a * b;
  if (b == 0) return 0;
  return sign == "/" ? a / b : a % b;
}

unsigned long value_of(const Node& node, unsigned long n) noexcept {
  if (node.operation == "number") return node.number;
  if (node.operation == "n") return n;
  const unsigned long first = value_of(*node.first, n);
  if (node.operation == "!") return first == 0 ? 1 : 0;
  if (node.operation == "?") return value_of(first != 0 ? *node.second : *node.third, n);
  if (node.operation == "||") return first != 0 || value_of(*node.second, n) != 0 ? 1 : 0;
  if (node.operation == "&&") return first != 0 && value_of(*node.second, n) != 0 ? 1 : 0;
  return value_of_pair(node.operation, first, value_of(*node.second, n));
}

std::string_view after(std::string_view text, std::string_view word) {
  const auto at = text.find(word);
  return at == std::string_view::npos ? std::string_view{} : text.substr(at + word.size());
}

}  // namespace

PluralRule::PluralRule() : PluralRule("nplurals=2; plural=(n != 1);") {}

PluralRule::PluralRule(std::string_view plural_forms) {
  const std::string_view number = after(plural_forms, "nplurals=");
  std::from_chars(number.data(), number.data() + number.size(), forms_);
  expression_ = Parser(after(plural_forms, "plural=")).whole();
}

PluralRule::PluralRule(PluralRule&&) noexcept = default;
PluralRule& PluralRule::operator=(PluralRule&&) noexcept = default;
PluralRule::~PluralRule() = default;

unsigned long PluralRule::form_of(unsigned long count) const noexcept {
  const unsigned long form = value_of(*expression_, count);
  return form < forms_ ? form : 0;
}

}  // namespace graftcast
