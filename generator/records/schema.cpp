#include <fmt/format.h>

#include "records/database.hpp"

namespace footroom::records {
namespace {

std::vector<std::string> tables(const std::string& integer, const std::string& text) {
  using namespace fmt::literals;
  const auto sql = [&](const char* statement) {
    return fmt::format(fmt::runtime(statement), "integer"_a = integer, "text"_a = text);
  };
  return {
      sql("CREATE TABLE store_format (version {integer} NOT NULL)"),
      sql("INSERT INTO store_format VALUES (0)"),
      sql("CREATE TABLE entry ("
          "number {integer} PRIMARY KEY CHECK (number > 0), kind {text} NOT NULL, "
          "day {text} NOT NULL, person {integer} REFERENCES entry (number), "
          "about {integer} REFERENCES entry (number), "
          "corrects {integer} REFERENCES entry (number), name {text} NOT NULL, "
          "body {text} NOT NULL, seal {text} NOT NULL, digest {text} NOT NULL)"),
      // Beside whom or what an entry is about, its number: histories come in order.
      sql("CREATE INDEX entry_person ON entry (person, number) WHERE person IS NOT NULL"),
      sql("CREATE INDEX entry_about ON entry (about, number) WHERE about IS NOT NULL"),
      sql("CREATE INDEX entry_corrects ON entry (corrects, number) WHERE corrects IS NOT NULL"),
      sql("CREATE INDEX entry_name ON entry (kind, name) WHERE name <> ''"),
      sql("CREATE TABLE personal ("
          "entry {integer} PRIMARY KEY REFERENCES entry (number), "
          "person {integer} NOT NULL REFERENCES entry (number), salt {text} NOT NULL, "
          "name {text} NOT NULL, identity {text} NOT NULL, remark {text} NOT NULL)"),
      sql("CREATE INDEX personal_person ON personal (person)"),
      sql("CREATE INDEX personal_name ON personal (name) WHERE name <> ''"),
      sql("CREATE INDEX personal_identity ON personal (identity) WHERE identity <> ''"),
      // Follows from the entries, for the due list alone; verify() works it out again.
      sql("CREATE TABLE standing ("
          "person {integer} NOT NULL, course {integer} NOT NULL, employer {integer} NOT NULL, "
          "trained {text} NOT NULL, due {text} NOT NULL, reason {text} NOT NULL, "
          "PRIMARY KEY (person, course))"),
      sql("CREATE INDEX standing_due ON standing (due, person, course) WHERE due <> ''"),
      sql("CREATE INDEX standing_employer ON standing (employer, due, person, course) "
          "WHERE due <> ''"),
  };
}

std::vector<std::string> sqlite_version_1() {
  auto statements = tables("INTEGER", "TEXT");
  for (const auto* trigger : {
           "entry_next BEFORE INSERT ON entry WHEN NEW.number IS NOT "
           "(SELECT coalesce(max(number), 0) + 1 FROM entry) BEGIN "
           "SELECT raise(ABORT, 'an entry takes the next number'); END",
           "entry_update BEFORE UPDATE ON entry BEGIN "
           "SELECT raise(ABORT, 'entries are only ever added'); END",
           "entry_delete BEFORE DELETE ON entry BEGIN "
           "SELECT raise(ABORT, 'entries are only ever added'); END",
           // INSERT OR REPLACE would get past the other triggers on some connections.
           "personal_insert BEFORE INSERT ON personal "
           "WHEN EXISTS (SELECT 1 FROM personal WHERE entry = NEW.entry) BEGIN "
           "SELECT raise(ABORT, 'personal data is only ever added, or erased'); END",
           "personal_update BEFORE UPDATE ON personal BEGIN "
           "SELECT raise(ABORT, 'personal data is only ever added, or erased'); END",
           "personal_delete BEFORE DELETE ON personal WHEN NOT EXISTS "
           "(SELECT 1 FROM entry WHERE person = OLD.person AND kind = 'erasure') BEGIN "
           "SELECT raise(ABORT, 'personal data is only ever added, or erased'); END",
       })
    statements.push_back(std::string("CREATE TRIGGER ") + trigger);
  return statements;
}

std::vector<std::string> postgresql_version_1() {
  auto statements = tables("BIGINT", "TEXT COLLATE \"C\"");
  const auto function = [&statements](const std::string& name, const std::string& body) {
    statements.push_back("CREATE FUNCTION " + name +
                         "() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN " + body + " END $$");
  };
  function("store_refuse_entry", "RAISE EXCEPTION 'entries are only ever added';");
  function("store_refuse_personal",
           "RAISE EXCEPTION 'personal data is only ever added, or erased';");
  function("store_want_next",
           "IF NEW.number IS DISTINCT FROM (SELECT coalesce(max(number), 0) + 1 FROM entry) THEN "
           "RAISE EXCEPTION 'an entry takes the next number'; END IF; RETURN NEW;");
  function("store_want_erasure",
           "IF NOT EXISTS (SELECT 1 FROM entry WHERE person = OLD.person AND kind = 'erasure') "
           "THEN RAISE EXCEPTION 'personal data is only ever added, or erased'; END IF; "
           "RETURN OLD;");
  for (const auto* trigger : {
           "entry_next BEFORE INSERT ON entry FOR EACH ROW EXECUTE FUNCTION store_want_next()",
           "entry_update BEFORE UPDATE ON entry FOR EACH ROW EXECUTE FUNCTION store_refuse_entry()",
           "entry_delete BEFORE DELETE ON entry FOR EACH ROW EXECUTE FUNCTION store_refuse_entry()",
           "entry_truncate BEFORE TRUNCATE ON entry EXECUTE FUNCTION store_refuse_entry()",
           "personal_update BEFORE UPDATE ON personal FOR EACH ROW "
           "EXECUTE FUNCTION store_refuse_personal()",
           "personal_delete BEFORE DELETE ON personal FOR EACH ROW "
           "EXECUTE FUNCTION store_want_erasure()",
           "personal_truncate BEFORE TRUNCATE ON personal "
           "EXECUTE FUNCTION store_refuse_personal()",
       })
    statements.push_back(std::string("CREATE TRIGGER ") + trigger);
  return statements;
}

}  // namespace

const std::vector<SchemaStep>& schema_steps() {
  static const std::vector<SchemaStep> steps{{sqlite_version_1(), postgresql_version_1()}};
  return steps;
}

std::vector<std::string> trigger_names(bool is_file) {
  std::vector<std::string> names;
  for (const auto& step : schema_steps())
    for (const auto& sql : is_file ? step.sqlite : step.postgresql) {
      constexpr std::string_view create = "CREATE TRIGGER ";
      if (sql.rfind(create, 0) == 0)
        names.push_back(sql.substr(create.size(), sql.find(' ', create.size()) - create.size()));
    }
  return names;
}

}  // namespace footroom::records
