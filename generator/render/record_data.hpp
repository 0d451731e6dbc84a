#pragma once
// What the templates of certificates and of a person's record may mention; the same for Markdown
// and HTML, as there is nothing in them but text.

#include "render/record_pages.hpp"
#include "render/templates.hpp"

namespace footroom::render {

mustache::data record_page_data(const Templates::Parts& parts, const RecordPage& page);
mustache::data certificate_data(const Templates::Parts& parts, const RecordPage& page,
                                const Certificate& certificate);
mustache::data person_record_data(const Templates::Parts& parts, const RecordPage& page,
                                  const PersonRecord& record);

}  // namespace footroom::render
