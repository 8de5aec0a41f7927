// A deed killed at every system call that changes files, one after the other: the process is
// traced, and ended by SIGKILL as it is about to do its n-th. What a kill leaves is then looked at.
#pragma once

#include "core/base/result.hpp"

#include <csignal>
#include <cstddef>
#include <set>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

namespace qb::test {

namespace traced {

inline bool changes_files(unsigned long call) {
  static const std::set<unsigned long> all{
      SYS_openat,   SYS_write,     SYS_pwrite64, SYS_ftruncate, SYS_fallocate,
      SYS_fsync,    SYS_fdatasync, SYS_linkat,   SYS_renameat2, SYS_unlinkat,
#ifdef SYS_renameat
      SYS_renameat,
#endif
#ifdef SYS_open // older names, which newer machines have not
      SYS_open,     SYS_rename,    SYS_link,     SYS_unlink,
#endif
  };
  return all.count(call) > 0;
}

// Whether the stopped child is about to do one of those.
inline bool is_at_a_change(pid_t child) {
  __ptrace_syscall_info info{};
  QB_BELIEVE(::ptrace(PTRACE_GET_SYSCALL_INFO, child, sizeof info, &info) > 0);
  return info.op == PTRACE_SYSCALL_INFO_ENTRY && changes_files(info.entry.nr);
}

} // namespace traced

// What became of the deed: killed, or done before its `fatal`-th change came.
enum class deed { killed, done_well, refused };

// Does it in a process of its own; `what` answers a result. Nothing of it is seen here but files.
template <class Deed>
deed killed_at(int fatal, const Deed& what) {
  const pid_t child = ::fork();
  QB_BELIEVE(child >= 0);
  if (child == 0) {
    if (::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr) != 0) ::_exit(2);
    ::raise(SIGSTOP);
    ::_exit(what().has_value() ? 0 : 1);
  }
  int status = 0;
  QB_BELIEVE(::waitpid(child, &status, 0) == child && WIFSTOPPED(status));
  QB_BELIEVE(::ptrace(PTRACE_SETOPTIONS, child, 0, PTRACE_O_TRACESYSGOOD) == 0);
  int changes = 0;
  for (;;) {
    QB_BELIEVE(::ptrace(PTRACE_SYSCALL, child, nullptr, nullptr) == 0);
    QB_BELIEVE(::waitpid(child, &status, 0) == child);
    if (!WIFSTOPPED(status)) break;
    if (WSTOPSIG(status) != (SIGTRAP | 0x80) || !traced::is_at_a_change(child)) continue;
    if (++changes < fatal) continue;
    QB_BELIEVE(::kill(child, SIGKILL) == 0 && ::waitpid(child, &status, 0) == child);
    break;
  }
  if (WIFSIGNALED(status)) return deed::killed;
  QB_BELIEVE(WEXITSTATUS(status) <= 1);
  return WEXITSTATUS(status) == 0 ? deed::done_well : deed::refused;
}

} // namespace qb::test
