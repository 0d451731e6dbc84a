#pragma once
// What the record commands share: the store they work on and the day they record.

#include <map>
#include <optional>

#include "cli/command.hpp"
#include "engine/text.hpp"
#include "records/store.hpp"
#include "tasks/record.hpp"
#include "tasks/unfinished.hpp"

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
  mutable std::optional<Unfinished> open_;  ///< SQLite keeps files beside an open store
};

/// --date: the day that new entries carry, today if it is not given.
class RecordedOption {
 public:
  void declare(CLI::App& app);
  records::Date day() const;

 private:
  std::string date_;
};

}  // namespace footroom::cli
