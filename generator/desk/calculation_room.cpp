// The calculations: each with its values to change, its result, drawing, steps, sources and plots.

#include <algorithm>

#include "desk/room.hpp"
#include "engine/catalogue.hpp"
#include "notation/typeset.hpp"
#include "tasks/bank_files.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/calc_plot.hpp"
#include "tasks/text.hpp"

namespace footroom::desk {
namespace {

using engine::Calculation;
using tasks::CalcField;
using tasks::CalcForm;
using tasks::CalcSetting;

constexpr const char* room_address = "/calculations";
constexpr const char* slack_plot = "clearance-against-slack";
constexpr const char* plot_input = "plot-input";
constexpr const char* plot_output = "plot-output";
constexpr const char* plot_from = "plot-from";
constexpr const char* plot_to = "plot-to";

std::string address_of(std::string_view calculation) {
  return std::string(room_address) + "/" + std::string(calculation);
}

CalcSetting setting_of(const Call& call) {
  return {call.preferences.system, call.preferences.style,
          tasks::find_rules(call.house.bank, call.preferences.rules)};
}

const Calculation& calculation_at(const Call& call) {
  const auto* found = engine::find_calculation(call.parts.at(0));
  if (!found) throw NotThere();
  return *found;
}

/// What the address brings for these inputs; nothing where it names none of them.
tasks::Typed typed_in(const Call& call, const Calculation& calculation) {
  tasks::Typed typed;
  for (const auto& input : calculation.inputs) {
    const auto [begin, end] = call.request.query.equal_range(input.id);
    typed.insert(begin, end);
  }
  return typed;
}

std::string symbol_of(std::string_view symbol) {
  return symbol.empty() ? std::string() : render::mathml(notation::symbol(symbol));
}

std::string hint_of(const Call& call, const CalcField& field) {
  std::string hint = field.accepts;
  if (!field.left_out.empty())
    hint += (hint.empty() ? "" : "; ") + call.say_with("calc-left-out", field.left_out);
  return hint;
}

Field form_field(const Call& call, const CalcField& from, const std::string& reading) {
  const engine::Input& input = *from.input;
  const bool list = !input.word_example.empty() && !input.choices.empty();
  Field field{Field::Kind::text, std::string(input.id), from.name, from.typed};
  field.symbol = symbol_of(input.symbol);
  field.hint = hint_of(call, from);
  field.unit = from.unit;
  field.error = from.fault;
  if (list) {
    field.kind = Field::Kind::several_of;
    field.chosen = from.ticked;
  } else if (!input.choices.empty()) {
    field.kind = Field::Kind::list;
  } else if (input.word_example.empty()) {
    field.narrow = true;
    field.reading = reading + "?input=" + field.name;
    if (from.read_apart) field.read = call.say_with("reading", from.read);
  }
  for (const auto& choice : input.choices)
    field.choices.push_back({std::string(choice.id), std::string(choice.name.in(call.language))});
  return field;
}

/// The same again, unseen, so that one form of a page keeps what stands in the other.
void keep(Form& form, const CalcField& field) {
  const std::string id(field.input->id);
  if (!field.input->word_example.empty() && !field.input->choices.empty())
    for (const auto& one : field.ticked) form.fields.push_back({Field::Kind::hidden, id, "", one});
  else
    form.fields.push_back({Field::Kind::hidden, id, "", field.typed});
}

/// What is asked of a plot, as it stands in the address.
struct PlotTyped {
  std::string input;
  std::string output;
  std::string from;
  std::string to;
  bool any() const { return !input.empty() || !output.empty(); }
};

PlotTyped plot_typed(const Call& call) {
  return {call.query(plot_input), call.query(plot_output), call.query(plot_from),
          call.query(plot_to)};
}

void keep(Form& form, const PlotTyped& plot) {
  if (!plot.any()) return;
  for (const auto& [name, value] :
       {std::pair{plot_input, &plot.input}, std::pair{plot_output, &plot.output},
        std::pair{plot_from, &plot.from}, std::pair{plot_to, &plot.to}})
    form.fields.push_back({Field::Kind::hidden, name, "", *value});
}

/// The entries of the catalogue that are numbers in this case.
template <class Entries>
std::vector<Choice> numbers(const Entries& entries, const tasks::ShownValues& values,
                            engine::Language language) {
  std::vector<Choice> all;
  for (const auto& entry : entries)
    if (tasks::can_be_plotted(values.find(entry.id)->second))
      all.push_back({std::string(entry.id), std::string(entry.name.in(language))});
  return all;
}

bool has(const std::vector<Choice>& choices, const std::string& value) {
  return std::any_of(choices.begin(), choices.end(),
                     [&](const Choice& choice) { return choice.value == value; });
}

/// The form of a plot, and the plot if one was asked for.
class PlotPart {
 public:
  PlotPart(const Call& call, const CalcForm& form, const CalcSetting& setting)
      : call_(call), case_(form.given), outputs_(*form.outputs), setting_(setting) {
    const PlotTyped typed = plot_typed(call);
    const Calculation& calculation = *case_.calculation;
    form_.asks = true;
    form_.plain = true;
    form_.action = address_of(calculation.id) + "#plot";
    form_.button = call.say("plot-draw");
    for (const auto& field : form.fields) keep(form_, field);
    Field across{Field::Kind::list, plot_input, call.say(plot_input), typed.input};
    across.choices = numbers(calculation.inputs, case_.inputs, call.language);
    Field up{Field::Kind::list, plot_output, call.say(plot_output), typed.output};
    up.choices = numbers(calculation.outputs, outputs_, call.language);
    possible_ = !across.choices.empty() && !up.choices.empty();
    Field from{Field::Kind::text, plot_from, call.say(plot_from), typed.from};
    Field to{Field::Kind::text, plot_to, call.say(plot_to), typed.to};
    from.hint = call.say("plot-range-hint");
    from.narrow = to.narrow = true;
    form_.fields.insert(form_.fields.end(), {up, across, from, to});
    if (possible_ && typed.any()) draw();
  }

  void put_into(mustache::data& data) const {
    data.set("may-plot", mustache::data(possible_));
    if (possible_) data.set("plot-form", call_.form(form_));
    data.set("has-plot", mustache::data(plot_.has_value()));
    if (!plot_) return;
    data.set("plot", render::svg_element(figure::draw_plot(*plot_), "plot-drawing"));
    data.set("plot-says", plot_->description);
  }

 private:
  void draw() {
    const Calculation& calculation = *case_.calculation;
    for (const char* name : {plot_input, plot_output})
      if (!has(form_.at(name).choices, form_.at(name).value))
        form_.refuse(name, call_.say("choose-one"));
    if (!form_.sound()) return;
    const auto& input = *calculation.find_input(form_.at(plot_input).value);
    const auto& output = *calculation.find_output(form_.at(plot_output).value);
    auto asked = tasks::default_range(case_, input, output);
    read(plot_from, input, asked.from);
    read(plot_to, input, asked.to);
    if (form_.sound() && !(asked.from < asked.to))
      form_.refuse(plot_to, call_.say("plot-empty-range"));
    if (!form_.sound()) return;
    auto made = tasks::plot_of(case_, asked, setting_);
    if (const auto* why = std::get_if<std::string>(&made))
      form_.refuse(plot_from, *why);
    else
      plot_ = std::move(std::get<figure::Plot>(made));
  }

  /// One end of the range, where it was typed.
  void read(const char* name, const engine::Input& input, double& end) {
    Field& field = form_.at(name);
    if (trimmed(field.value).empty()) return;
    const auto read = tasks::read_input(input, field.value, setting_);
    if (!read.quantity)
      field.error = read.text;
    else if (!input.domain.contains(read.quantity->si) &&
             !tasks::is_end_of(input.domain, read.quantity->si))
      field.error =
          tasks::outside_text(input.domain, read.quantity->si, *read.unit, setting_.style);
    else
      end = read.quantity->si;
    if (field.error.empty()) field.read = call_.say_with("reading", read.text);
  }

  const Call& call_;
  const tasks::CalcCase& case_;
  const tasks::ShownValues& outputs_;
  const CalcSetting& setting_;
  Form form_;
  bool possible_ = false;
  std::optional<figure::Plot> plot_;
};

void put_results(const Call& call, const CalcForm& form, const CalcSetting& setting,
                 mustache::data& data) {
  const Calculation& calculation = *form.given.calculation;
  render::set_list(data, "outputs", calculation.outputs, [&](const engine::Output& output) {
    mustache::data one;
    one.set("output-name", std::string(output.name.in(call.language)));
    one.set("symbol", symbol_of(output.symbol));
    one.set("output-text", form.outputs->find(output.id)->second.text);
    return one;
  });
  render::set_list(
      data, "limits", tasks::limits_met(form, setting), [&](const tasks::LimitMet& limit) {
        mustache::data one;
        one.set("limit-name", limit.name);
        one.set("limit-text", limit.text);
        one.set("citation", limit.citation);
        one.set("status", limit.status);
        one.set("has-status", mustache::data(!limit.status.empty()));
        one.set("has-compared", mustache::data(!limit.value.empty()));
        one.set("compared",
                call.say_with(limit.broken ? "limit-broken" : "limit-kept", limit.value));
        one.set("is-broken", mustache::data(limit.broken));
        return one;
      });
}

void put_steps(const CalcForm& form, mustache::data& data) {
  const Calculation& calculation = *form.given.calculation;
  render::set_list(data, "steps", tasks::taken_steps(form.given, *form.outputs),
                   [&](const tasks::TakenStep& step) {
                     mustache::data one;
                     one.set("says", step.says);
                     one.set("symbols", render::mathml(step.symbols_set));
                     one.set("numbers",
                             render::mathml(notation::equation(
                                 notation::equation(tasks::name_in_formula(calculation, step.output,
                                                                           form.given.style),
                                                    "=", step.numbers_set),
                                 "=", notation::number(step.result))));
                     return one;
                   });
}

/// Sources and cautions of the calculation.
void put_sources(const Call& call, const tasks::CalcCase& given, mustache::data& data) {
  tasks::CalcCase without_limits = given;  // they stand with the results
  without_limits.limits.clear();
  render::set_list(data, "sources", tasks::cited(without_limits), [&](const tasks::Cited& source) {
    mustache::data one;
    one.set("citation", source.citation);
    const std::string status(tasks::status_text(source.status).in(call.language));
    one.set("has-status", mustache::data(status != source.citation));
    one.set("status", status);
    one.set("supports", source.supports);
    one.set("has-supports", mustache::data(!source.supports.empty()));
    return one;
  });
  render::set_list(data, "cautions", given.calculation->cautions, [&](const engine::Text& text) {
    return mustache::data("text", std::string(text.in(call.language)));
  });
}

Pages::Frame frame_of(const Call& call, std::string title) {
  return {call.language, "calculations", std::move(title), room_address,
          call.say("room-calculations")};
}

Response show(const Call& call) {
  const Calculation& calculation = calculation_at(call);
  const CalcSetting setting = setting_of(call);
  const auto typed = typed_in(call, calculation);
  const CalcForm form = tasks::fill_form(
      calculation, typed.empty() ? tasks::typed_example(calculation, setting) : typed, setting);
  Form values;
  values.asks = true;
  values.action = address_of(calculation.id) + "#results";
  values.button = call.say("calc-work-out");
  for (const auto& field : form.fields)
    values.fields.push_back(form_field(call, field, address_of(calculation.id) + "/reading"));
  keep(values, plot_typed(call));

  mustache::data data;
  data.set("purpose", std::string(calculation.purpose.in(call.language)));
  data.set("is-example", mustache::data(typed.empty()));
  data.set("values", call.form(values));
  data.set("rules", tasks::in_language(setting.rules.title, call.language));
  data.set("has-results", mustache::data(form.outputs.has_value()));
  put_sources(call, form.given, data);
  if (form.outputs) {
    put_results(call, form, setting, data);
    put_steps(form, data);
    const auto drawing = tasks::drawing_of(form.given, *form.outputs);
    data.set("has-drawing", mustache::data(drawing.has_value()));
    if (drawing) data.set("drawing", render::svg_element(*drawing, "scene"));
    const bool in_time = calculation.id == "arrest-in-time";
    data.set("has-history", mustache::data(in_time));
    if (in_time) {
      const auto history = tasks::plot_over_time(form.given, setting, tasks::Names::brief);
      data.set("history", render::svg_element(figure::draw_plot(history), "history-drawing"));
      data.set("history-says", history.description);
    }
    PlotPart(call, form, setting).put_into(data);
  }
  return call.page(frame_of(call, std::string(calculation.title.in(call.language))), "calculation",
                   data);
}

/// How what is being typed is understood.
Response show_reading(const Call& call) {
  const auto* input = calculation_at(call).find_input(call.query("input"));
  if (!input || !input->choices.empty() || !input->word_example.empty()) throw NotThere();
  Response response;
  response.type = "text/plain; charset=utf-8";
  const std::string typed = call.query("typed");
  if (trimmed(typed).empty()) return response;
  const auto read = tasks::read_input(*input, typed, setting_of(call));
  response.body = read.quantity ? call.say_with("reading", read.text) : read.text;
  return response;
}

/// The clearance needed and the free fall over the eave, against slack: the values of two
/// calculations, of which one gives the free fall to the other.
Response show_against_slack(const Call& call) {
  const CalcSetting setting = setting_of(call);
  const Calculation& fall = *engine::find_calculation("edge-fall");
  const Calculation& room = *engine::find_calculation("clearance");
  tasks::Typed typed = typed_in(call, fall);
  typed.merge(typed_in(call, room));
  if (typed.empty()) {
    typed = tasks::typed_example(fall, setting);
    for (const auto& [name, value] : tasks::typed_example(room, setting))
      if (!fall.find_input(name)) typed.emplace(name, value);
  }
  typed.erase("free-fall");
  tasks::Typed of_room = typed;
  of_room.emplace("free-fall", "0");
  CalcForm falls = tasks::fill_form(fall, typed, setting);
  CalcForm clears = tasks::fill_form(room, of_room, setting);
  std::vector<CalcField> fields = falls.fields;
  for (auto& field : clears.fields)
    if (field.input->id != "free-fall" && !fall.find_input(field.input->id))
      fields.push_back(std::move(field));

  mustache::data data;
  std::optional<figure::Plot> plot;
  if (falls.outputs && clears.outputs) {
    auto made = tasks::plot_against_slack(falls.given, clears.given, setting, tasks::Names::brief,
                                          setting.style);
    if (const auto* declined = std::get_if<tasks::Declined>(&made)) {
      for (auto& field : fields)
        if (field.input->id == declined->input) field.fault = declined->reason;
    } else {
      plot = std::move(std::get<figure::Plot>(made));
    }
  }
  Form values;
  values.asks = true;
  values.action = address_of(slack_plot) + "#plot";
  values.button = call.say("plot-draw");
  for (const auto& field : fields)
    values.fields.push_back(
        form_field(call, field,
                   address_of(fall.find_input(field.input->id) ? fall.id : room.id) + "/reading"));
  data.set("values", call.form(values));
  data.set("has-plot", mustache::data(plot.has_value()));
  if (plot) {
    data.set("plot", render::svg_element(figure::draw_plot(*plot), "plot-drawing"));
    data.set("plot-says", plot->description);
  }
  return call.page(frame_of(call, call.say("slack-plot-title")), "calculation-slack", data);
}

Response show_all(const Call& call) {
  mustache::data list(mustache::data::type::list);
  const auto add = [&](std::string_view id, const std::string& title, const std::string& purpose) {
    mustache::data one;
    one.set("calculation-address", address_of(id));
    one.set("calculation-title", title);
    one.set("calculation-purpose", purpose);
    list << one;
  };
  for (const auto* calculation : engine::catalogue())
    add(calculation->id, std::string(calculation->title.in(call.language)),
        std::string(calculation->purpose.in(call.language)));
  add(slack_plot, call.say("slack-plot-title"), call.say("slack-plot-purpose"));
  mustache::data data;
  data.set("calculations", list);
  return call.page({call.language, "calculations", call.say("room-calculations")}, "calculations",
                   data);
}

}  // namespace

void add_calculation_room(Routes& routes) {
  routes.get("/calculations", show_all);
  routes.get("/calculations/clearance-against-slack", show_against_slack);
  routes.get("/calculations/{word}", show);
  routes.get("/calculations/{word}/reading", show_reading);
}

}  // namespace footroom::desk
