#include <poll.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <fmt/core.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <string_view>

#include "cli/program.hpp"

namespace norma::cli {
namespace {

text::ReadResult standard_input() {
  std::string bytes;
  char piece[65536];
  while (bytes.size() <= text::largest_file) {
    const ssize_t got = ::read(STDIN_FILENO, piece, sizeof piece);
    if (got == 0) return bytes;
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return text::ReadError{text::ReadError::Kind::unreadable, std::strerror(errno)};
    bytes.append(piece, static_cast<std::size_t>(got));
  }
  return text::too_large();
}

/// Standard input and output piece by piece.
server::Wire wire() {
  return {[](char* into, std::size_t room) -> std::size_t {
            while (true) {
              const ssize_t got = ::read(STDIN_FILENO, into, room);
              if (got < 0 && errno == EINTR) continue;
              return got < 0 ? 0 : static_cast<std::size_t>(got);
            }
          },
          [](std::string_view bytes) {
            while (!bytes.empty()) {
              const ssize_t wrote = ::write(STDOUT_FILENO, bytes.data(), bytes.size());
              if (wrote < 0 && errno == EINTR) continue;
              if (wrote < 0) return false;
              bytes.remove_prefix(static_cast<std::size_t>(wrote));
            }
            return true;
          }};
}

/// No colour where the environment asks for none (no-color.org), or the terminal has none.
emit::Screen screen_of(int descriptor) {
  if (::isatty(descriptor) != 1) return {};
  const auto variable = [](const char* name) {
    const char* value = std::getenv(name);
    return std::string_view(value == nullptr ? "" : value);
  };
  winsize size{};
  const bool sized = ::ioctl(descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  constexpr std::size_t narrowest = 40;
  constexpr std::size_t usual = 80;
  const std::string_view kind = variable("TERM");
  return {variable("NO_COLOR").empty() && !kind.empty() && kind != "dumb",
          sized ? std::max<std::size_t>(size.ws_col, narrowest) : usual};
}

volatile std::sig_atomic_t interrupted = 0;

/// Was Ctrl-C pressed, or the program asked to end, since this was asked first?
bool stop() {
  static const bool listening = [] {
    struct sigaction on {};
    on.sa_handler = [](int) { interrupted = 1; };
    // A second one ends it at once, whatever it does.
    on.sa_flags = static_cast<int>(SA_RESETHAND);
    return ::sigaction(SIGINT, &on, nullptr) == 0 && ::sigaction(SIGTERM, &on, nullptr) == 0;
  }();
  return listening && interrupted != 0;
}

void tell(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

/// The program with the heavy libraries, which lies beside this one, or where an install puts it;
/// "" where there is none.
std::string press_beside() {
  char here[4096];
  const ssize_t length = ::readlink("/proc/self/exe", here, sizeof here);
  if (length <= 0) return {};
  std::string_view folder(here, static_cast<std::size_t>(length));
  folder = folder.substr(0, folder.rfind('/') + 1);
  for (const std::string_view place : {"norma-press", "../libexec/norma/norma-press"}) {
    std::string press = fmt::format("{}{}", folder, place);
    if (::access(press.c_str(), X_OK) == 0) return press;
  }
  return {};
}

bool has_press() { return !press_beside().empty(); }

/// Becomes that program; comes back where there is none.
void become_press(char** argv) {
  const std::string press = press_beside();
  if (!press.empty()) ::execv(press.c_str(), argv);
}

volatile std::sig_atomic_t told_to_end = 0;

/// Waits until the time is over: then true. The terminal ends it, by its keys, by going, and by the
/// end of what is typed; so does whoever asks the program to end.
class Waiting {
 public:
  bool operator()(std::chrono::milliseconds time) {
    if (!listens_) {
      listens_ = true;
      struct sigaction action {};
      action.sa_handler = [](int) { told_to_end = 1; };
      for (const int signal : {SIGINT, SIGHUP, SIGTERM})
        ::sigaction(signal, &action, nullptr);
    }
    // A terminal is read by who is in front of it.
    const bool terminal = ::isatty(STDIN_FILENO) == 1 && ::tcgetpgrp(STDIN_FILENO) == ::getpgrp();
    const auto end = std::chrono::steady_clock::now() + time;
    while (told_to_end == 0) {
      const auto left =
          std::chrono::ceil<std::chrono::milliseconds>(end - std::chrono::steady_clock::now());
      if (left.count() <= 0) return true;
      pollfd typed{terminal ? STDIN_FILENO : -1, POLLIN, 0};
      if (::poll(&typed, 1, static_cast<int>(left.count())) <= 0 || typed.revents == 0) continue;
      char piece[256];
      const ssize_t got = ::read(STDIN_FILENO, piece, sizeof piece);
      if (got == 0 || (got < 0 && errno != EINTR && errno != EAGAIN)) return false;
    }
    return false;
  }

 private:
  bool listens_ = false;
};

} // namespace

int program(int argc, char** argv, std::string_view commit,
            std::function<Printed(const drawing::Paper&)> print, Repository repository,
            live::OpenHost open_host) {
  try {
    const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
    const Outcome outcome =
        run(arguments, {standard_input, screen_of(STDOUT_FILENO), screen_of(STDERR_FILENO),
                        std::move(print), std::move(repository), wire(), commit,
                        std::move(open_host), has_press, Waiting(), tell, stop});
    if (outcome.needs_press) become_press(argv);
    const std::string& out = outcome.out;
    if (::isatty(STDOUT_FILENO) == 1 && out.starts_with("%PDF-")) {
      std::fputs("norma: a PDF is no text for a terminal; -o FILE.pdf writes it to a file\n",
                 stderr);
      return 2;
    }
    const bool written =
        std::fwrite(out.data(), 1, out.size(), stdout) == out.size() && std::fflush(stdout) == 0;
    std::fwrite(outcome.err.data(), 1, outcome.err.size(), stderr);
    if (!written) {
      // A full disk or a closed pipe: what was printed is not whole, so the run has failed.
      std::fputs("norma: the output could not be written\n", stderr);
      return 2;
    }
    return outcome.code;
  } catch (const std::exception& e) {
    std::fprintf(stderr, "norma: this is a fault of the program: %s\n", e.what());
    return 2;
  }
}

} // namespace norma::cli
