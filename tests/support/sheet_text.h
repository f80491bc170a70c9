// What a reader sees of an HTML document, for comparing stored texts and looking for words.
#pragma once

#include <string>
#include <vector>

namespace farwater::support {

// The document's text, a line for every element that has some, without pictures and style; tags and
// what stands in them are gone, entities are as written, hashes are hidden.
std::string seen_text(const std::string& html);

// Runs of 16 or more hexadecimal digits read "(hash)".
std::string with_hashes_hidden(const std::string& text);

// Empty where every element is closed in order and every & begins an entity; else what is wrong.
std::string ill_formed(const std::string& html);

}  // namespace farwater::support
