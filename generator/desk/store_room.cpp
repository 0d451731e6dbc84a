// The store of the training records as a whole: its state, checking it, copies to keep, and taking
// over what was exported.

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>

#include "desk/crew.hpp"
#include "desk/room.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/record_exchange.hpp"
#include "tasks/record_import.hpp"
#include "tasks/zip_file.hpp"

namespace footroom::desk {
namespace {

namespace fs = std::filesystem;
using tasks::Exchanged;

/// What can be saved: a word of the address, the file's name and type, the labels of the button
/// and of the link.
struct Download {
  const char* word;
  const char* file_name;
  const char* type;
  const char* make;
  const char* save;
};
constexpr std::array<Download, 3> downloads{
    {{"backup", "crew-backup.db", "application/octet-stream", "records-backup",
      "records-save-backup"},
     {"tables", "records-csv.zip", "application/zip", "records-tables", "records-save-tables"},
     {"json", "records-json.zip", "application/zip", "records-json", "records-save-json"}}};

const Download& download_of(const std::string& word) {
  for (const Download& one : downloads)
    if (one.word == word) return one;
  throw NotThere();
}

/// What was found when the store was checked last.
struct Checked {
  records::Head head;
  std::optional<records::BadEntry> bad;
  bool against_kept = false;  ///< a state that was typed in
};

/// What came of taking over results: how many rows, or why nothing was recorded.
struct Imported {
  std::size_t rows = 0;
  tasks::Refusals refused;
};

constexpr std::size_t most_faults = 20;  ///< rows shown that cannot be taken

/// What long work left, apart from files: it lasts as long as the desk is open.
struct Done {
  std::mutex mutex;
  std::optional<Checked> checked;
  std::optional<Imported> imported;
  std::map<std::string, records::Head> made;  ///< of which state of the store each download is
};

class StoreRoom {
 public:
  Response show(const Call& call) const {
    for (const char* word : {"verify", "backup", "tables", "json", "import"})
      if (const auto state = call.house.work.state(about(word)); state && state->running)
        return working_page(call, word, *state);
    return page(call, head_form(call), import_form(call));
  }

  Response verify(const Call& call) const {
    Form form = head_form(call);
    form.fill(call.request.form);
    const std::string typed = trimmed(form.at("head").value);
    const auto kept = records::read_head(typed);
    if (!typed.empty() && !kept) form.refuse("head", call.say("records-no-head"));
    if (!form.sound()) return page(call, form, import_form(call));
    const auto store = shared_store(call);
    const int entries = static_cast<int>(store->head().number);
    call.house.work.begin(
        about("verify"), [store, kept, entries, done = done_](const Work::Tell& tell) {
          const auto bad = store->verify(
              kept, [&](records::Number entry) { tell(static_cast<int>(entry), entries); });
          const std::lock_guard lock(done->mutex);
          done->checked = Checked{store->head(), bad, kept.has_value()};
        });
    return see_other("/records?told=checked");
  }

  Response make(const Call& call) const {
    const Download& what = download_of(call.parts.at(0));
    const auto store = shared_store(call);
    const auto file = call.house.folder.download(what.word);
    const std::string word = what.word;
    call.house.work.begin(about(word), [store, file, word, done = done_](const Work::Tell& tell) {
      const int entries = static_cast<int>(store->head().number);
      const auto told = [&](records::Number entry) { tell(static_cast<int>(entry), entries); };
      fs::remove(file);
      const auto head = word == "backup" ? store->backup(file.string(), told)
                                         : write_tables(*store, file, word == "json", told);
      const std::lock_guard lock(done->mutex);
      done->made[word] = head;
    });
    return see_other("/records?told=made");
  }

  Response save(const Call& call) const {
    const Download& what = download_of(call.parts.at(0));
    const auto store = crew_store(call);
    if (!store || !is_of_now(what.word, store->head())) throw NotThere();
    Response response;
    response.type = what.type;
    response.file_name = what.file_name;
    response.body = tasks::file_text(call.house.folder.download(what.word));
    return response;
  }

  Response import(const Call& call) const {
    Form form = import_form(call);
    form.fill(call.request.form);
    const std::string text = call.sent("file");
    if (trimmed(text).empty()) {
      form.refuse("file", call.say("records-no-file"));
      return page(call, head_form(call), form);
    }
    const auto store = shared_store(call);
    const auto today = recorded_today(call);
    const bool add_employers = form.at("add-employers").chosen.count("yes") > 0;
    const std::string shown = call.say("file");
    call.house.work.begin(about("import"), [store, text, today, add_employers, shown,
                                            done = done_](const Work::Tell& tell) {
      Imported imported;
      const bool json = trimmed(text).starts_with('[');
      const auto rows =
          tasks::read_exchange(Exchanged::results, text, shown, json, imported.refused);
      const auto writing = store->write(today);
      tasks::RecordImport(*store, *writing, add_employers)
          .add(Exchanged::results, rows, imported.refused, [&](std::size_t row) {
            tell(static_cast<int>(row), static_cast<int>(rows.size()));
          });
      if (imported.refused.empty()) writing->commit();
      imported.rows = rows.size();
      const std::lock_guard lock(done->mutex);
      done->imported = imported;
    });
    return see_other("/records?told=imported");
  }

  static Response work(const Call& call) {
    const auto state = call.house.work.state(about(call.parts.at(0)));
    if (!state) throw NotThere();
    Response response;
    response.type = "application/json";
    response.body =
        nlohmann::json{{"running", state->running}, {"done", state->done}, {"of", state->of}}
            .dump();
    return response;
  }

 private:
  static std::string about(const std::string& word) { return "records " + word; }

  /// One of its own for work that goes on when the request is answered.
  static std::shared_ptr<records::Store> shared_store(const Call& call) {
    std::shared_ptr<records::Store> store = crew_store(call);
    if (!store) throw NotThere();
    return store;
  }

  static records::Head write_tables(records::Store& store, const fs::path& file, bool json,
                                    const records::Told& told) {
    const auto head = store.head();
    std::vector<render::PackageFile> files;
    for (const auto& [name, what] :
         {std::pair("people", Exchanged::people), std::pair("results", Exchanged::results)}) {
      std::string bytes;
      tasks::write_exchange(
          what, json, store, [&bytes](const std::string& more) { bytes += more; }, told);
      files.push_back({name + std::string(json ? ".json" : ".csv"), std::move(bytes)});
    }
    tasks::write_whole_file(file, tasks::zip_of(files));
    return head;
  }

  /// Whether the download holds what the store holds now: nobody erased since may be in it.
  bool is_of_now(const std::string& word, const records::Head& head) const {
    const std::lock_guard lock(done_->mutex);
    const auto made = done_->made.find(word);
    return made != done_->made.end() && made->second == head;
  }

  static Form head_form(const Call& call) {
    Form form;
    form.action = "/records/verify";
    form.button = call.say("records-verify");
    Field head{Field::Kind::text, "head", call.say("records-head")};
    head.hint = call.say("records-head-hint");
    form.fields = {head};
    return form;
  }

  static Form import_form(const Call& call) {
    Form form;
    form.action = "/records/import";
    form.button = call.say("records-import");
    form.plain = true;
    Field employers{Field::Kind::several_of, "add-employers", call.say("employers")};
    employers.choices = {{"yes", call.say("records-add-employers")}};
    form.fields = {
        {Field::Kind::file, "file", call.say("records-file"), {}, call.say("records-file-hint")},
        employers};
    return form;
  }

  /// What came of the import that was just asked for.
  void set_imported(const Call& call, mustache::data& data) const {
    const std::lock_guard lock(done_->mutex);
    const auto& imported = done_->imported;
    const bool now = call.query("told") == "imported" && imported;
    data.set("imported", mustache::data(now && imported->refused.empty()));
    data.set("refused", mustache::data(now && !imported->refused.empty()));
    if (!now) return;
    data.set("imported-says", call.say_with("records-imported", imported->rows));
    data.set("refused-says", call.say_with("records-refused", imported->refused.size()));
    mustache::data faults(mustache::data::type::list);
    for (std::size_t i = 0; i < std::min(imported->refused.size(), most_faults); ++i) {
      mustache::data one;
      one.set("fault", imported->refused[i].in(call.language));
      faults << one;
    }
    data.set("faults", faults);
  }

  static Response working_page(const Call& call, const std::string& word,
                               const Work::State& state) {
    mustache::data data;
    data.set("work", "/records/work/" + word);
    data.set("done", std::to_string(state.done));
    data.set("of", std::to_string(std::max(state.of, 1)));
    data.set("running", mustache::data(true));
    data.set("work-says", call.say("records-entries-done"));
    data.set("again", std::string("/records"));
    return call.page({call.language, "records", call.say("records-working-" + word)}, "work", data);
  }

  /// What was found, as long as the store is as it was then.
  void set_checked(const Call& call, const records::Head& head, mustache::data& data) const {
    const std::lock_guard lock(done_->mutex);
    const auto& checked = done_->checked;
    const bool now = checked && checked->head == head;
    data.set("sound", mustache::data(now && !checked->bad));
    data.set("bad", mustache::data(checked && checked->bad.has_value()));
    if (now && !checked->bad)
      data.set("sound-says", call.say_with("records-sound", static_cast<std::size_t>(head.number)));
    if (checked && checked->bad) {
      data.set("bad-says", checked->bad->number > 0
                               ? call.say_with("records-bad-entry",
                                               static_cast<std::size_t>(checked->bad->number))
                               : call.say("records-bad-store"));
      data.set("bad-what", checked->bad->what);
      data.set("against-kept", mustache::data(checked->against_kept));
    }
  }

  Response page(const Call& call, const Form& head, const Form& import) const {
    const auto store = crew_store(call);
    mustache::data data;
    data.set("empty", mustache::data(!store));
    data.set("there", mustache::data(store != nullptr));
    data.set("folder", call.house.folder.path().string());
    if (store) {
      const auto now = store->head();
      data.set("entries", call.say_with("records-entries", static_cast<std::size_t>(now.number)));
      data.set("head", now.text());
      set_checked(call, now, data);
      mustache::data list(mustache::data::type::list);
      for (const Download& one : downloads) {
        Form make;
        make.action = std::string("/records/make/") + one.word;
        make.button = call.say(one.make);
        make.plain = true;
        mustache::data row;
        row.set("make", call.form(make));
        row.set("save", std::string("/records/save/") + one.word);
        row.set("save-label", call.say(one.save));
        row.set("made", mustache::data(is_of_now(one.word, now)));
        const auto state = call.house.work.state(about(one.word));
        row.set("has-failed", mustache::data(state && !state->failed.empty()));
        row.set("failed", state ? state->failed.in(call.language) : std::string());
        list << row;
      }
      data.set("downloads", list);
    }
    std::string failed;
    for (const char* word : {"verify", "import"})
      if (const auto state = call.house.work.state(about(word)))
        failed += state->failed.in(call.language);
    data.set("has-failed", mustache::data(!failed.empty()));
    data.set("failed", failed);
    data.set("verify", call.form(head));
    data.set("import", call.form(import));
    set_imported(call, data);
    Pages::Frame frame{call.language, "records", call.say("room-records")};
    if (call.query("told") == "made") frame.told = call.say("records-made");
    return call.page(frame, "records", data);
  }

  std::shared_ptr<Done> done_ = std::make_shared<Done>();
};

}  // namespace

void add_store_room(Routes& routes) {
  const auto room = std::make_shared<const StoreRoom>();
  routes.get("/records", [room](const Call& call) { return room->show(call); });
  routes.post("/records/verify", [room](const Call& call) { return room->verify(call); });
  routes.post("/records/import", [room](const Call& call) { return room->import(call); });
  routes.post("/records/make/{word}", [room](const Call& call) { return room->make(call); });
  routes.get("/records/save/{word}", [room](const Call& call) { return room->save(call); });
  routes.get("/records/work/{word}", StoreRoom::work);
}

}  // namespace footroom::desk
