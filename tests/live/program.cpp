// `norma live` as a program: it starts, shows, and ends with who started it.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <string>
#include <thread>

#include "support/support.hpp"

namespace norma::test {
namespace {

using namespace std::chrono_literals;

/// A program with a terminal of its own for standard input (or nothing there), its output read.
class Running {
 public:
  enum class Input { terminal, nothing };
  explicit Running(Input input) {
    int out[2];
    REQUIRE(::pipe(out) == 0);
    std::string terminal;
    if (input == Input::terminal) {
      terminal_ = ::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
      REQUIRE(terminal_ >= 0);
      REQUIRE(::grantpt(terminal_) == 0);
      REQUIRE(::unlockpt(terminal_) == 0);
      terminal = ::ptsname(terminal_);
    }
    child_ = ::fork();
    if (child_ == 0) {
      ::setsid();
      // The first terminal that a session opens is its own.
      const int in = ::open(terminal.empty() ? "/dev/null" : terminal.c_str(), O_RDWR);
      ::dup2(in, 0);
      ::dup2(out[1], 1);
      ::dup2(out[1], 2);
      ::close(out[0]);
      ::execl(NORMA_PROGRAM, "norma", "live", "--kit", "protocols/kits/chair_3.yaml",
              "protocols/five.norma", nullptr);
      ::_exit(127);
    }
    ::close(out[1]);
    out_ = out[0];
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  ~Running() {
    if (child_ > 0) {
      ::kill(child_, SIGKILL);
      ::waitpid(child_, nullptr, 0);
    }
    ::close(out_);
    hang_up();
  }

  std::string read_until(std::string_view end) {
    std::string got;
    const auto last = std::chrono::steady_clock::now() + 10s;
    while (got.find(end) == std::string::npos && std::chrono::steady_clock::now() < last) {
      pollfd wait{out_, POLLIN, 0};
      if (::poll(&wait, 1, 100) <= 0) continue;
      char piece[1000];
      const ssize_t count = ::read(out_, piece, sizeof piece);
      if (count <= 0) break;
      got.append(piece, static_cast<std::size_t>(count));
    }
    return got;
  }
  void signal(int number) const { ::kill(child_, number); }
  void type(std::string_view keys) const {
    REQUIRE(::write(terminal_, keys.data(), keys.size()) == static_cast<ssize_t>(keys.size()));
  }
  void hang_up() {
    if (terminal_ >= 0) ::close(terminal_);
    terminal_ = -1;
  }
  /// Its exit code; -1 where it goes on, or was ended by force.
  int end(std::chrono::milliseconds most = 5s) {
    const auto last = std::chrono::steady_clock::now() + most;
    int status = 0;
    while (::waitpid(child_, &status, WNOHANG) == 0) {
      if (std::chrono::steady_clock::now() > last) return -1;
      std::this_thread::sleep_for(10ms);
    }
    child_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  pid_t child_ = -1;
  int out_ = -1;
  int terminal_ = -1;
};

} // namespace

TEST_CASE("norma live tells its address, and ends by Ctrl-C, with its terminal, or as it is told") {
  const Inside inside(root());
  const auto starts = [](Running& running) {
    const std::string told = running.read_until("Ctrl-C");
    CHECK(told.starts_with("protocols/five.norma is shown at\n  http://127.0.0.1:"));
    std::this_thread::sleep_for(50ms); // until it waits
  };
  {
    Running running(Running::Input::terminal);
    starts(running);
    running.type("what is typed is let be\n");
    CHECK(running.end(500ms) == -1);
    running.type("\x03");
    CHECK(running.end() == 0);
  }
  {
    Running running(Running::Input::terminal);
    starts(running);
    running.type("\x04"); // the end of what is typed
    CHECK(running.end() == 0);
  }
  {
    Running running(Running::Input::terminal);
    starts(running);
    running.hang_up();
    CHECK(running.end() == 0);
  }
  for (const int number : {SIGTERM, SIGHUP, SIGINT}) {
    Running running(Running::Input::nothing);
    starts(running);
    CHECK(running.end(300ms) == -1); // no terminal: nothing ends
    running.signal(number);
    CHECK(running.end() == 0);
  }
}

} // namespace norma::test
