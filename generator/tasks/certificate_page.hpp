#pragma once
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "records/store.hpp"
#include "render/record_pages.hpp"

namespace footroom::tasks {

/// The page of a certificate in the store, from what is recorded about the person now. Its tests
/// are those with the codes `quizzes`, else those taken on the days of the training; practice never
/// is one. Titles of topics are those of `bank`.
render::Certificate certificate_page(records::Store& store, records::Number certificate,
                                     const std::vector<std::string>& quizzes,
                                     const bank::Bank& bank, engine::Language language);

}  // namespace footroom::tasks
