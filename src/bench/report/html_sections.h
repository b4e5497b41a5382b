// The sections of the page. Each one is empty when the assessment has nothing for it.
#pragma once

#include <string>

#include "bench/report/markup.h"
#include "bench/report/report.h"

namespace fallaway::report {

// <section> with a heading of its own.
Markup section(const std::string& id, const std::string& heading, const Markup& inside);

// A figure in the state it is in. `mark` stands before it ("6" for a string).
Markup reading(const judgement::Figure& figure, const std::string& state, const std::string& mark = "");

// html_sections.cpp: what was asked and what came of it
Markup complaints_section(const Sheet& sheet);
Markup findings_section(const Sheet& sheet);
Markup claims_section(const Sheet& sheet);
Markup card_section(const Sheet& sheet);
Markup changes_section(const Sheet& sheet);
Markup price_section(const Sheet& sheet);

// intonation_section.cpp
Markup intonation_section(const Sheet& sheet);
Markup strings_section(const Sheet& sheet);

// html_record.cpp: what it rests on
Markup readings_section(const Sheet& sheet);
Markup assumed_section(const Sheet& sheet);
Markup next_section(const Sheet& sheet);
Markup remarks_section(const Sheet& sheet);
Markup photos_section(const Sheet& sheet);
Markup list_section(const std::string& id, const std::string& heading, const std::vector<std::string>& lines);
Markup cautions_section(const Sheet& sheet);

}  // namespace fallaway::report
