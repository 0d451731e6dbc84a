#pragma once
// What the record commands share: the store they work on, the day they record, and how people,
// employers and courses are named on the command line.

#include <map>
#include <optional>

#include "bank/item.hpp"
#include "cli/command.hpp"
#include "engine/text.hpp"
#include "records/store.hpp"

namespace footroom::cli {

std::unique_ptr<Command> make_record_init_command();
std::unique_ptr<Command> make_record_add_employer_command();
std::unique_ptr<Command> make_record_add_course_command();
std::unique_ptr<Command> make_record_set_policy_command();
std::unique_ptr<Command> make_record_add_person_command();
std::unique_ptr<Command> make_record_add_session_command();
std::unique_ptr<Command> make_record_add_results_command();
std::unique_ptr<Command> make_record_retrain_command();
std::unique_ptr<Command> make_record_correct_command();
std::unique_ptr<Command> make_record_erase_command();
std::unique_ptr<Command> make_record_import_command();
std::unique_ptr<Command> make_record_export_command();
std::unique_ptr<Command> make_record_due_command();
std::unique_ptr<Command> make_record_report_command();
std::unique_ptr<Command> make_record_certificate_command();
std::unique_ptr<Command> make_record_verify_command();
std::unique_ptr<Command> make_record_backup_command();
std::unique_ptr<Command> make_record_restore_command();

/// --store and --language, which every record command has.
class RecordOptions {
 public:
  void declare(CLI::App& app);
  /// Throws Failure where nothing was given.
  const std::string& location() const;
  std::unique_ptr<records::Store> open() const;
  engine::Language language() const;

 private:
  std::string store_;
  std::string language_ = "en";
};

/// --date: the day that new entries carry, today if it is not given.
class RecordedOption {
 public:
  void declare(CLI::App& app);
  records::Date day() const;

 private:
  std::string date_;
};

/// The day that `text` names. Throws Failure "--on: is May, expected a day of the calendar ...".
records::Date need_date(std::string_view option, const std::string& text);

/// A word or an option that must be there. Throws Failure "--course: is missing, expected CODE".
const std::string& need(std::string_view option, const std::string& text,
                        std::string_view placeholder);

/// A person by identity, by name, or by number as "@12". Throws Failure where nobody or several are
/// named so.
records::Number find_person(records::Store& store, const std::string& text);

/// By name or code; throws Failure with a suggestion.
records::Number find_employer(records::Store& store, const std::string& name);
records::Number find_course(records::Store& store, const std::string& code);

/// The parts of "a,b,c" without spaces around them; empty ones are left out.
std::vector<std::string> parts_of(const std::string& list);

/// "350" hundredths as "3.5", and back; nothing for any other text.
std::string points_text(std::int64_t hundredths);
std::optional<std::int64_t> read_points(std::string_view text);

/// Text from outside for a terminal: what could turn the line around or hide in it is spelt out.
std::string for_terminal(std::string_view text);

/// The topic's title in the bank, or `id` where the bank has no such topic.
std::string title_of_topic(const bank::Bank& bank, const std::string& id,
                           engine::Language language);

/// The person's name, or that it was erased.
std::string name_of(const records::Person& person, bool erased, engine::Language language);
std::string title_of(const records::Course& course, engine::Language language);
std::string_view text_of(records::Reason reason, engine::Language language);

}  // namespace footroom::cli
