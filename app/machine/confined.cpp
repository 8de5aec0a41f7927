// A fork without an exec: the bytes to be read are there already, and nothing has to be installed.
// The child calls only `work`, with signals and limits of its own, and leaves by _exit, so that no
// file of the parent's is flushed, closed or unlocked twice.
#include "app/machine/confined.hpp"

#include "app/machine/files.hpp"
#include "app/machine/posix_file.hpp"

#include <array>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdint>
#include <cstring>
#include <fcntl.h>
#include <fmt/core.h>
#include <new>
#include <optional>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

using posix::descriptor;

enum child_exit : int { done = 0, no_memory = 3, no_limits = 4, fell_over = 5 };

// How much this process has mapped; a limit counts that too.
std::optional<std::size_t> mapped_bytes() {
  const auto text = read_file("/proc/self/statm");
  if (!text) return std::nullopt;
  std::size_t pages = 0;
  if (std::from_chars(text->data(), text->data() + text->size(), pages).ec != std::errc())
    return std::nullopt;
  return pages * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

bool limit(__rlimit_resource what, std::size_t most) {
  rlimit now{};
  if (::getrlimit(what, &now) != 0) return false;
  const auto wanted = static_cast<rlim_t>(most);
  if (now.rlim_max != RLIM_INFINITY && now.rlim_max < wanted) return true; // narrower already
  now = {wanted, wanted};
  return ::setrlimit(what, &now) == 0;
}

bool confine(const confinement& limits, int to) {
  // What the parent blocks or catches is no business of the child's: a limit or a fall must end it,
  // and what a library prints meanwhile is nobody's.
  sigset_t none;
  sigemptyset(&none);
  for (const int one : {SIGALRM, SIGXCPU, SIGPIPE, SIGTERM, SIGINT, SIGHUP, SIGSEGV, SIGBUS, SIGFPE,
                        SIGILL, SIGABRT})
    (void)std::signal(one, SIG_DFL);
  for (const int one : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (one != to) (void)::close(one);
  (void)::sigprocmask(SIG_SETMASK, &none, nullptr);
  (void)::prctl(PR_SET_PDEATHSIG, SIGKILL);
  ::alarm(limits.deadline_seconds);
  const auto mapped = mapped_bytes();
  return mapped && limit(RLIMIT_CORE, 0) && limit(RLIMIT_AS, *mapped + limits.more_memory) &&
         limit(RLIMIT_CPU, limits.processor_seconds) && limit(RLIMIT_FSIZE, 0) &&
         limit(RLIMIT_NOFILE, 0);
}

bool send(int to, const char* bytes, std::size_t size) {
  while (size > 0) {
    const ssize_t n = ::write(to, bytes, size);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    bytes += n;
    size -= static_cast<std::size_t>(n);
  }
  return true;
}

// An answer comes after its length, so that one that was cut off is known as that.
using length_bytes = std::array<char, sizeof(std::uint64_t)>;

int answer(const std::function<std::string()>& work, const confinement& limits, int to) {
  if (!confine(limits, to)) return no_limits;
  try {
    const std::string text = work();
    const std::uint64_t size = text.size();
    length_bytes head{};
    std::memcpy(head.data(), &size, head.size());
    if (!send(to, head.data(), head.size()) || !send(to, text.data(), text.size()))
      return fell_over;
  } catch (const std::bad_alloc&) {
    return no_memory;
  } catch (...) {
    return fell_over;
  }
  return done;
}

refusal too_much(const char* where, const std::string& expected) {
  return {refusal_kind::out_of_range, "", where, "more work than it is worth", expected};
}

// Why the child gave no answer.
refusal no_answer(int status, const confinement& limits, const char* where) {
  constexpr std::size_t mebibyte = 1024UL * 1024UL;
  const std::string memory = fmt::format("at most {} MiB of memory", limits.more_memory / mebibyte);
  if (WIFSIGNALED(status)) {
    const int by = WTERMSIG(status);
    if (by == SIGXCPU || by == SIGKILL || by == SIGALRM)
      return too_much(where, fmt::format("at most {} s", limits.processor_seconds));
  }
  if (WIFEXITED(status) && WEXITSTATUS(status) == no_memory) return too_much(where, memory);
  if (WIFEXITED(status) && WEXITSTATUS(status) == no_limits)
    return {refusal_kind::machine, "", where, "no limits for a child", "a system that sets them"};
  return {refusal_kind::malformed, "", where, "something that its reader fell over",
          "what can be read"};
}

result<std::string> received(int from, const confinement& limits, const char* where) {
  auto all = posix::read_to_end(from, "", sizeof(std::uint64_t) + limits.most_answer);
  if (!all) {
    all.error().where = where;
    return all;
  }
  std::uint64_t size = 0;
  if (all->size() >= sizeof size) std::memcpy(&size, all->data(), sizeof size);
  const bool whole = all->size() >= sizeof size && all->size() - sizeof size == size;
  if (whole) return all->substr(sizeof size);
  return tl::unexpected(refusal{refusal_kind::malformed, "", where, "no whole answer", ""});
}

} // namespace

result<std::string> confined(const std::function<std::string()>& work, const confinement& limits,
                             const char* where) {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) return tl::unexpected(posix::failed("", "pipe"));
  descriptor from(ends[0]);
  descriptor to(ends[1]);
  const pid_t child = ::fork();
  if (child < 0) return tl::unexpected(posix::failed("", "fork"));
  if (child == 0) ::_exit(answer(work, limits, to.get()));
  (void)to.close();
  auto got = received(from.get(), limits, where);
  (void)from.close(); // a child that has more to say is told so
  int status = 0;
  pid_t ended = 0;
  do
    ended = ::waitpid(child, &status, 0);
  while (ended < 0 && errno == EINTR);
  const bool well = ended == child && WIFEXITED(status) && WEXITSTATUS(status) == done;
  if (got && (well || ended < 0)) return got; // where children are not waited for, its length tells
  if (!got && got.error().kind == refusal_kind::out_of_range) return got;
  return tl::unexpected(no_answer(status, limits, where));
}

} // namespace qb::inline machines
