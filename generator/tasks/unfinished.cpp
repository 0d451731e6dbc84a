#include "tasks/unfinished.hpp"

#include <csignal>
#include <initializer_list>

namespace footroom::tasks {
namespace {

thread_local int held = 0;
thread_local sigset_t mask_before;

/// Those that would end the program.
sigset_t ending_signals() {
  sigset_t set;
  ::sigemptyset(&set);
  for (const int number : {SIGINT, SIGTERM, SIGHUP, SIGPIPE}) {
    struct sigaction action {};
    if (::sigaction(number, nullptr, &action) == 0 && action.sa_handler != SIG_IGN)
      ::sigaddset(&set, number);
  }
  return set;
}

}  // namespace

Unfinished::Unfinished() {
  if (held++ > 0) return;
  const sigset_t wait = ending_signals();
  ::pthread_sigmask(SIG_BLOCK, &wait, &mask_before);
}

Unfinished::~Unfinished() {
  if (--held == 0) ::pthread_sigmask(SIG_SETMASK, &mask_before, nullptr);
}

void Unfinished::check() {
  if (held == 0) return;
  sigset_t waiting;
  ::sigpending(&waiting);
  const sigset_t ending = ending_signals();
  for (const int number : {SIGINT, SIGTERM, SIGHUP, SIGPIPE})
    if (::sigismember(&ending, number) == 1 && ::sigismember(&waiting, number) == 1 &&
        ::sigismember(&mask_before, number) == 0)
      throw Interrupted{};
}

}  // namespace footroom::tasks
