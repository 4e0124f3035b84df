#pragma once
// What the words of the command line say of the answer's language, before they are parsed: help and errors of
// the command line are in that language too.

#include <memory>
#include <string>
#include <vector>

#include "text/catalogue.hpp"

namespace graftcast::cli {

bool asks_for_json(const std::vector<std::string>& arguments);

/// By --language, else by the environment; null (English) for JSON. A language of the environment that there
/// is not is no error. Errors: UsageError for --language; DataError where its catalogue is damaged.
std::unique_ptr<const Catalogue> catalogue_asked_for(const std::vector<std::string>& arguments);

}  // namespace graftcast::cli
