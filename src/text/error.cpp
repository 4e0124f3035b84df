#include "graftcast/error.hpp"

namespace graftcast {

std::string to_string(const Position& position) {
  std::string text = position.file;
  if (!text.empty() && position.line > 0) {
    text += ':' + std::to_string(position.line);
    if (position.column > 0) text += ':' + std::to_string(position.column);
  }
  return text;
}

namespace {
std::string full_text(const Position& position, const std::string& message, const std::string& hint) {
  std::string text = to_string(position);
  if (!text.empty()) text += ": ";
  text += message;
  if (!hint.empty()) text += "; " + hint;
  return text;
}
}  // namespace

Error::Error(Position position, std::string message, std::string hint)
    : std::runtime_error(full_text(position, message, hint)),
      position_(std::move(position)),
      message_(std::move(message)),
      hint_(std::move(hint)) {}

}  // namespace graftcast
