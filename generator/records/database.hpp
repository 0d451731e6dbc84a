#pragma once
// A database that holds a store: the only place that knows SOCI and the two kinds of SQL.

#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "records/row.hpp"

namespace footroom::records {

/// Versions of the tables, oldest first: the statements that lead from the version before. The
/// first one makes an empty database into a store.
struct SchemaStep {
  std::vector<std::string> sqlite;
  std::vector<std::string> postgresql;
};
const std::vector<SchemaStep>& schema_steps();

/// The names of the triggers that stand in the way of changes.
std::vector<std::string> trigger_names(bool is_file);

class Database {
 public:
  using Argument = std::variant<Number, std::string>;
  using Arguments = std::vector<Argument>;

  /// How a file is used: in earnest, or as a fresh copy that is thrown away unless it gets whole.
  enum class Use { open, fill };

  /// Throw Unavailable. `shown` is the name for messages.
  static std::unique_ptr<Database> open_file(const std::string& file, Use use) {
    return open_file(file, use, file);
  }
  static std::unique_ptr<Database> open_file(const std::string& file, Use use,
                                             const std::string& shown);
  static std::unique_ptr<Database> open_server(const std::string& location);

  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;
  ~Database();

  /// For messages: the path, or the address without a password.
  const std::string& shown() const { return shown_; }
  bool is_file() const { return is_file_; }

  /// Entries, each with its personal data; `tail` follows FROM and names them `e`. Arguments are
  /// :a to :f in their order. Statements are prepared once.
  std::vector<Row> rows(const std::string& tail, const Arguments& arguments = {});
  /// Any columns as text, NULL as nothing.
  std::vector<std::vector<std::string>> table(const std::string& sql, int columns,
                                              const Arguments& arguments = {});
  bool any(const std::string& sql, const Arguments& arguments = {});
  void execute(const std::string& sql, const Arguments& arguments = {});
  void insert(const Row& row);
  void insert_personal(Number entry, Number person, const Personal& personal);

  /// 0 where the database holds no store.
  Number version();
  /// Brings an older store up to the last of `steps`, all in one transaction. Throws Unavailable
  /// for a newer one.
  void migrate(const std::vector<SchemaStep>& steps);
  /// After filling: everything is on the disk, and others may write and read at once.
  void finish_filling();
  /// Overwrites what was removed, as far as others who are reading let it.
  void forget_removed() noexcept;

  void begin_reading();
  void begin_writing();
  void commit();
  void roll_back() noexcept;

 private:
  struct Session;
  Database(std::string shown, bool is_file);
  template <class F>
  auto in_our_words(F&& act);

  std::string shown_;
  std::string path_;  ///< of a file
  bool is_file_;
  std::unique_ptr<Session> session_;
};

}  // namespace footroom::records
