// The sums: every small calculation of the bench, registered once. The command, its JSON, the page and
// docs/sums.md all follow from the entries here.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "bench/sums/inputs.h"
#include "science/base/dimension.h"
#include "science/base/quantity_text.h"
#include "science/base/result.h"

namespace fallaway::sums {

enum class Kind : std::uint8_t {
    quantity,  // "635 mm", "635 mm ± 0.3 mm"; a count or a plain number has no unit
    list,      // "1.6 1.65 1.6 mm", "25 mm, 9.7 mm"
    table,     // rows of a list, parted by semicolons
    word,      // one of a few words
    text,      // a name that the sum itself reads: a thread, a note
};

// What becomes of an uncertainty written beside a value.
enum class UseOfU : std::uint8_t {
    carried,   // to the outputs, by first order
    used,      // by the sum itself, when it is given
    required,  // by the sum itself
    refused,   // the sum has no use for it
};

// One thing to be given. The functions below make the kinds; the members that return Input& refine one.
struct Input {
    std::string name;
    std::string says;
    Kind kind = Kind::quantity;
    // Absent for words and texts, and for a value of any kind: all such values of a sum must be of one kind.
    std::optional<Dimension> dimension;
    std::optional<double> low;  // SI
    std::optional<double> high;
    bool ends_excluded = false;
    std::vector<std::string> words;
    std::string usual;  // taken when nothing is given, as a person would type it; "" for none
    bool may_be_left_out = false;
    bool is_difference = false;  // of a kind with an origin (a temperature): an error, a step, a spread
    bool may_be_note = false;    // a frequency that may be written "E2" (A4 at 440 Hz)
    UseOfU use_of_u = UseOfU::carried;

    Input within(double lowest, double highest) const;   // ends included
    Input between(double lowest, double highest) const;  // ends excluded
    Input above(double lowest) const;                    // end excluded
    Input at_least(double lowest) const;
    Input usually(std::string text) const;
    Input optional() const;
    Input or_note() const;
    Input with_u(UseOfU use) const;
};

Input quantity(std::string name, std::string says, Dimension dimension);
Input quantities(std::string name, std::string says, Dimension dimension);
Input whole(std::string name, std::string says);        // a count, 0 and up
Input number(std::string name, std::string says);       // without unit, or in percent
Input probability(std::string name, std::string says);  // above 0 and below 1
Input numbers(std::string name, std::string says);
Input reading(std::string name, std::string says);     // of any kind
Input readings(std::string name, std::string says);    // of any kind
Input difference(std::string name, std::string says);  // an error or a step of the readings
Input table(std::string name, std::string says);       // of numbers without unit
Input reading_table(std::string name, std::string says);
Input one_of(std::string name, std::string says, std::vector<std::string> words);
Input text(std::string name, std::string says);

// How a value is printed.
struct Output {
    std::string name;
    std::string says;
    std::optional<Dimension> dimension;  // absent for words, and for the kind of the readings given
    std::string unit;                    // symbol; "" beside a dimension means a plain number
    int decimals = 3;                    // in `unit`; for the kind of the readings: significant digits
    bool is_word = false;
    bool is_difference = false;
    std::string unit_as_given_for;  // an input in whose unit the value is printed

    Output in_unit_of(std::string input) const;
};

Output shown(std::string name, std::string says, Dimension dimension, std::string unit, int decimals);
Output plain(std::string name, std::string says, int decimals);
Output count_of(std::string name, std::string says);
Output percent(std::string name, std::string says, int decimals = 1);
Output like_readings(std::string name, std::string says, int significant = 4);
Output spread_of_readings(std::string name, std::string says, int significant = 3);
Output word_of(std::string name, std::string says);

// One key=value of the command line.
struct Argument {
    std::string key;
    std::string text;

    friend bool operator==(const Argument&, const Argument&) = default;
};

struct Sum {
    std::string name;  // trade words with hyphens
    std::string title;
    std::string says;  // what it is for, one or two sentences
    std::vector<Input> inputs;
    std::vector<Output> outputs;
    std::string formula;
    std::string source;
    std::vector<std::string> cautions;
    std::vector<Argument> example;
    Result<Outcome> (*function)(const Inputs&) = nullptr;
};

// Every sum, grouped by theme, in the order of the manual.
struct Theme {
    std::string title;
    std::vector<Sum> sums;
};
std::span<const Theme> themes();
std::span<const Sum> registry();
const Sum* find(std::string_view name);
// Up to three names that one may have meant, nearest first.
std::vector<std::string_view> near_names(std::string_view name);

// A printed value: a number, a column of numbers, or a word.
struct AnswerValue {
    std::string name;
    std::string says;
    std::optional<Dimension> dimension;
    const Unit* unit = nullptr;  // null for a word
    bool is_column = false;
    bool is_difference = false;
    std::vector<double> si;  // one entry, or a column
    std::vector<double> u;   // as many; 0 where none is known
    std::vector<std::string> texts;
    std::string word;
};

struct Answer {
    std::vector<AnswerValue> outputs;
    std::vector<std::string> notes;
    std::vector<std::string> cautions;
};

// Reads the arguments and does the sum. Uncertainties are carried by first order (JCGM 100:2008, 5.1.2) with
// sensitivities by central differences; a note says so, and says when the result bends too much for it.
// Errors carry the key as path. Codes: "unknown", "duplicate", "missing", "range", "uncertainty", those of
// parse_quantity, and those of the sum itself.
Result<Answer> run(const Sum& sum, const std::vector<Argument>& arguments);

}  // namespace fallaway::sums
