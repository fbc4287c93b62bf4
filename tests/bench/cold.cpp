// Median wall time and peak memory of a program that is started anew 100 times. A program of its
// own, and small: a child's peak counts what its parent held when it was started.
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>

extern char** environ;

int main(int count, char** arguments) {
  if (count < 2) return 2;
  std::array<double, 100> times{};
  long peak = 0;
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  for (double& time : times) {
    const auto start = std::chrono::steady_clock::now();
    pid_t child = 0;
    int status = 0;
    rusage usage{};
    if (posix_spawn(&child, arguments[1], &quiet, nullptr, arguments + 1, environ) != 0 ||
        wait4(child, &status, 0, &usage) != child || status != 0) {
      std::fprintf(stderr, "%s failed\n", arguments[1]);
      return 1;
    }
    time =
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
    peak = std::max(peak, usage.ru_maxrss);
  }
  std::sort(times.begin(), times.end());
  std::printf("  %s: median %.1f ms, fastest %.1f ms, peak memory %.1f MB\n", arguments[1],
              times[times.size() / 2], times.front(), static_cast<double>(peak) / 1024.0);
}
