#include "render/record_data.hpp"

#include "render/page_data.hpp"

namespace footroom::render {
namespace {

using Data = mustache::data;

void set_text(Data& data, const std::string& name, const std::string& text) {
  data.set("has-" + name, Data(!text.empty()));
  data.set(name, text);
}

}  // namespace

Data record_page_data(const Templates::Parts& parts, const RecordPage& page) {
  Data data;
  data.look_also_in(parts.label_data(page.language));
  data.set("language", page.language == engine::Language::english ? "en" : "es");
  data.set("paper", page.paper == quiz::Paper::letter ? "letter" : "a4");
  return data;
}

Data certificate_data(const Templates::Parts& parts, const RecordPage& page,
                      const Certificate& certificate) {
  const auto day = [&](const std::string& date) {
    return long_date(parts.labels, page.language, date);
  };
  Data data = record_page_data(parts, page);
  data.set("certificate-number", certificate.number);
  data.set("recorded", day(certificate.recorded));
  data.set("name", certificate.name);
  set_text(data, "identity", certificate.identity);
  set_text(data, "employer", certificate.employer);
  set_text(data, "employer-place", certificate.employer_place);
  data.set("training", certificate.course);
  data.set("prior-training", Data(certificate.prior_training));
  data.set("several-days", Data(certificate.days.size() > 1));
  set_list(data, "days", certificate.days,
           [&](const std::string& date) { return Data("day", day(date)); });
  set_text(data, "place", certificate.place);
  set_text(data, "trainer", certificate.trainer);
  data.set("employer-signs", Data(certificate.employer_signs));
  set_text(data, "signer", certificate.signer);
  set_list(data, "tests", certificate.tests, [&](const CertificateTest& test) {
    Data one;
    one.set("quiz", test.quiz);
    one.set("test-day", day(test.day));
    one.set("points", test.points);
    one.set("possible", test.possible);
    one.set("percent", test.percent);
    return one;
  });
  set_list(data, "topics", certificate.topics, [](const CertificateTopic& topic) {
    Data one;
    one.set("topic", topic.title);
    one.set("points", topic.points);
    one.set("possible", topic.possible);
    return one;
  });
  set_list(data, "retrainings", certificate.retrainings, [&](const CertificateRetraining& one) {
    Data retraining;
    retraining.set("reason", one.reason);
    retraining.set("since", day(one.since));
    return retraining;
  });
  data.set("refresher", Data(certificate.next == NextTraining::refresher));
  data.set("no-interval", Data(certificate.next == NextTraining::no_interval));
  data.set("retraining-due", Data(certificate.next == NextTraining::retraining));
  data.set("next-day", day(certificate.next_day));
  data.set("next-reason", certificate.next_reason);
  return data;
}

Data person_record_data(const Templates::Parts& parts, const RecordPage& page,
                        const PersonRecord& record) {
  Data data = record_page_data(parts, page);
  data.set("name", record.name);
  data.set("head", record.head);
  set_list(data, "facts", record.facts, [](const auto& fact) {
    Data one;
    one.set("what", fact.first);
    one.set("text", fact.second);
    return one;
  });
  std::size_t number = 0;
  set_list(data, "sections", record.sections, [&number](const RecordSection& section) {
    Data one;
    one.set("section-number", std::to_string(++number));
    one.set("section-title", section.title);
    set_list(one, "columns", section.columns,
             [](const std::string& column) { return Data("column", column); });
    set_list(one, "rows", section.rows, [](const std::vector<std::string>& cells) {
      Data row;
      set_list(row, "cells", cells, [](const std::string& cell) { return Data("cell", cell); });
      return row;
    });
    return one;
  });
  return data;
}

}  // namespace footroom::render
