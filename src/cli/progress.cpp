#include "cli/progress.hpp"

#include <fmt/core.h>
#include <unistd.h>

#include <cstdio>
#include <string>

namespace norma::cli {

Progress::Progress(std::size_t count)
    : count_(count), shown_(count > 1 && ::isatty(STDERR_FILENO) == 1) {}

Progress::~Progress() {
  if (written_) std::fputs("\r\033[K", stderr); // the line is taken away
}

void Progress::tell(std::size_t done) const {
  if (std::chrono::steady_clock::now() - start_ < std::chrono::seconds(1)) return;
  constexpr std::size_t width = 30;
  const std::size_t full = count_ == 0 ? width : width * done / count_;
  fmt::print(stderr, "\r[{}{}] {} of {} protocols", std::string(full, '='),
             std::string(width - full, ' '), done, count_);
  std::fflush(stderr);
  written_ = true;
}

} // namespace norma::cli
