#include <cstdio>
#include <exception>

#include "cli/run.hpp"

int main(int argc, char** argv) {
  try {
    const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
    const norma::cli::Outcome outcome = norma::cli::run(arguments);
    const std::string& out = outcome.out;
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
