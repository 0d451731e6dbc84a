#pragma once
// What the practice page shows, in JSON: members whose names end in "-html" are markup, escaped
// here; all others are plain text.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "practice/bench.hpp"
#include "practice/sitting.hpp"
#include "render/labels.hpp"

namespace footroom::render {

/// The labels of labels.xml that these functions say.
std::vector<std::string> labels_of_practice();

/// "Question 3", the topic, stem, figure, options, field and box; nothing that gives the answer
/// away. `returned`: it was missed before.
nlohmann::ordered_json practice_question(const Labels& labels, const quiz::Question& question,
                                         const quiz::ReferenceBox& box, bool returned,
                                         notation::Style style);

/// How an answer is understood: "read", or "problem" where it cannot be.
nlohmann::ordered_json practice_reading(const grade::QuestionResult& result);

nlohmann::ordered_json practice_feedback(const Labels& labels, const practice::Marked& marked,
                                         notation::Style style);

/// Worked step `index` of the question.
nlohmann::ordered_json practice_step(const quiz::Question& question, std::size_t index);

nlohmann::ordered_json practice_bench(const Labels& labels, const practice::Bench& bench,
                                      notation::Style style);

/// A label with {1} and {2} filled in.
std::string label_with(const Labels& labels, std::string_view id, notation::Style style,
                       const std::string& first, const std::string& second = {});

}  // namespace footroom::render
