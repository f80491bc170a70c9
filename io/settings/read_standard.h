// A published standard as numbers, from the program's own file or the district's copy.
#pragma once

#include <filesystem>
#include <string>

#include "analyzer/district/standard.h"
#include "analyzer/district/words.h"

namespace farwater::io {

// As the program has it; empty for a method that rests on none.
Standard built_in_standard(NeedMethod method);

// The same with what `text` says in its place. The text has the shape of the program's own file,
// and only what differs; its values count as the district's own copy unless they say otherwise.
// Lists of one table may grow and shrink together. Throws SettingsError, in the manner of the
// district file, for keys that the standard does not have and values that cannot be.
Standard standard_with_own(NeedMethod method, const std::string& text,
                           const std::filesystem::path& path, const std::string& as_written);

// The same for the terms of insurance rating, whose values may be words, too.
Standard built_in_terms(RatingTerms terms);
Standard terms_with_own(RatingTerms terms, const std::string& text,
                        const std::filesystem::path& path, const std::string& as_written);

}  // namespace farwater::io
