#pragma once
// Text that came from files or from a calculation, made safe to stand in HTML (private to the layer).

#include <string>
#include <string_view>

namespace graftcast {

/// `text` with `&`, `<`, `>` and both quotes as character references, and control characters as U+FFFD: the
/// same text within an element or a quoted attribute, and never markup. Ill-formed UTF-8 becomes U+FFFD.
std::string html_text(std::string_view text);

/// A name from a file, kept apart from the direction of writing around it.
std::string html_name(std::string_view name);

/// A name that may be long: clipped by the style after some lines.
std::string html_long_name(std::string_view name);

/// A sentence that may hold names: like html_text, without marks that turn the direction of writing.
std::string html_sentence(std::string_view text);

/// What a part of a sentence is, that gets an element of its own once the sentence is made.
enum class Part : char { name = 'n', long_name = 'l', strong = 'b', strong_name = 's' };
/// `text` marked as such a part, to be put into a sentence for html_marked: what the sentence says around it
/// and in which order is the language's.
std::string marked(Part part, std::string_view text);
/// html_sentence of a sentence with marked parts: html_name, html_long_name, and
/// `<b>` around either a text or a name.
std::string html_marked(std::string_view sentence);

/// The value of the attribute `lang`.
std::string html_language();

/// A SHA-256 in hexadecimal digits as a Content-Security-Policy names it: `'sha256-...'` in base64. Error:
/// RangeError for anything but 64 such digits.
std::string policy_hash(std::string_view sha256_hex);

}  // namespace graftcast
