#include <sys/ioctl.h>
#include <unistd.h>

#include <fmt/core.h>

#include <algorithm>
#include <cerrno>
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

/// Becomes the program with the heavy libraries, which lies beside this one, or where an install
/// puts it; comes back where there is none.
void become_press(char** argv) {
  char here[4096];
  const ssize_t length = ::readlink("/proc/self/exe", here, sizeof here);
  if (length <= 0) return;
  std::string_view folder(here, static_cast<std::size_t>(length));
  folder = folder.substr(0, folder.rfind('/') + 1);
  for (const std::string_view place : {"norma-press", "../libexec/norma/norma-press"})
    ::execv(fmt::format("{}{}", folder, place).c_str(), argv);
}

} // namespace

int program(int argc, char** argv, std::string_view commit,
            std::function<Printed(const drawing::Paper&)> print, Repository repository) {
  try {
    const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
    const Outcome outcome =
        run(arguments, {standard_input, screen_of(STDOUT_FILENO), screen_of(STDERR_FILENO),
                        std::move(print), std::move(repository), wire(), commit});
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
