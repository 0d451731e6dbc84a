#include "render/manual_data.hpp"

namespace footroom::render {
namespace {

using Data = mustache::data;

class Writer {
 public:
  explicit Writer(const ManualDress& dress) : dress_(dress) {}

  Data entry(const ManualEntry& entry) const {
    Data data;
    data.set("id", entry.id);
    data.set("title", entry.title);
    data.set("purpose", entry.purpose);
    data.set("command", entry.command);
    data.set("has-figure", Data(entry.drawing.has_value()));
    if (entry.drawing) {
      data.set("drawing", dress_.drawing(*entry.drawing, "figure-" + entry.id));
      data.set("figure-title", entry.drawing->title);
      data.set("figure-description", entry.drawing->description);
    }
    const auto each_quantity = [&](const ManualQuantity& one) { return quantity(one); };
    set_list(data, "inputs", entry.inputs, each_quantity);
    set_list(data, "outputs", entry.outputs, each_quantity);
    set_list(data, "steps", entry.steps, [&](const ManualStep& step) {
      Data one;
      one.set("says", step.says);
      one.set("formula", dress_.formula(step.formula));
      one.set("has-when", Data(step.when.has_value()));
      if (step.when) one.set("when", dress_.formula(*step.when));
      return one;
    });
    set_list(data, "example-steps", entry.example_steps, [&](const notation::Math& formula) {
      return Data("formula", dress_.formula(formula));
    });
    set_list(data, "sources", entry.sources, [](const ManualSource& source) {
      Data one;
      one.set("citation", source.citation);
      one.set("has-status", Data(source.status != source.citation));
      one.set("status", source.status);
      one.set("has-supports", Data(!source.supports.empty()));
      one.set("supports", source.supports);
      return one;
    });
    set_list(data, "cautions", entry.cautions,
             [](const std::string& text) { return Data("text", text); });
    return data;
  }

 private:
  Data quantity(const ManualQuantity& quantity) const {
    Data data;
    data.set("name", quantity.id);
    data.set("symbol", quantity.symbol ? dress_.formula(*quantity.symbol) : std::string());
    data.set("meaning", quantity.meaning);
    data.set("unit", quantity.unit);
    data.set("accepts", quantity.accepts);
    data.set("example", quantity.example);
    return data;
  }

  const ManualDress& dress_;
};

}  // namespace

Data manual_data(const Templates::Parts& parts, const Manual& manual, const ManualDress& dress) {
  const Writer writer(dress);
  Data data;
  data.look_also_in(parts.label_data(manual.language));
  data.set("language", manual.language == engine::Language::english ? "en" : "es");
  data.set("rules", manual.rules_title);
  data.set("page-title", parts.labels.at("manual-title", manual.language));
  data.set("styles", parts.styles);
  data.set("page-rules", "");
  set_list(data, "entries", manual.entries,
           [&](const ManualEntry& entry) { return writer.entry(entry); });
  return data;
}

}  // namespace footroom::render
