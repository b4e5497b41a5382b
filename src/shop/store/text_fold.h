// Text as the search compares it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallaway::store {

// Upper case becomes lower case: simple case folding of Unicode (CaseFolding.txt, status C and S) for the Latin
// letters with and without accents, Greek and Cyrillic. Accents stay as they are, other scripts and bytes that are
// no UTF-8 too. Every kind of blank becomes a space.
std::string fold(std::string_view text);

// The words of a folded text, in order, parted by spaces.
std::vector<std::string> words_of(std::string_view folded);

}  // namespace fallaway::store
