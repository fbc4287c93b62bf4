// How far a long run has got, on a terminal.
#pragma once

#include <chrono>
#include <cstddef>

namespace norma::cli {

/// One line on standard error that is written over, from the second second on. Nothing where
/// standard error is no terminal, or there is one file only.
class Progress {
 public:
  explicit Progress(std::size_t count);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress();

  [[nodiscard]] bool shown() const { return shown_; }
  void tell(std::size_t done) const;

 private:
  std::size_t count_;
  bool shown_;
  mutable bool written_ = false;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

} // namespace norma::cli
