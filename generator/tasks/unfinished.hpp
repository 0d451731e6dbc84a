#pragma once
// Ctrl-C, a closed terminal and an order to stop leave no half files.
//
// Such a signal ends the program at once by itself, as is usual, unless something unfinished is on
// the disk. Whoever puts it there holds an Unfinished meanwhile: the signal then waits. Between
// units of work, check() throws Interrupted where one waits; the destructors on the way clean up;
// and with the last Unfinished the signal comes through and ends the program, so that the caller
// sees a program that died of it.

namespace footroom::tasks {

/// Thrown for no one to catch but the destructors: no std::exception.
struct Interrupted {};

/// Makes SIGINT, SIGTERM, SIGHUP and SIGPIPE wait for this thread and for those that it starts.
/// One that the program was started to ignore is still ignored; one that waits anyhow, because
/// another thread receives it (as in a server), is left to that thread.
class Unfinished {
 public:
  Unfinished();
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  ~Unfinished();

  /// Throws Interrupted where a signal waits.
  static void check();
};

}  // namespace footroom::tasks
