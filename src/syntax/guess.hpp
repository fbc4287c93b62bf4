// What an unreadable run of signs was meant to be.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace norma::syntax {

/// A guess: what helps, and where one is known the edit that makes the run readable.
struct Guess {
  std::string help;
  bool has_edit = false;
  std::size_t begin = 0; // what is replaced, as offsets of the file
  std::size_t end = 0;
  std::string replacement;
};

/// The run of `size` bytes at `at`; what stands around it on its line is looked at, too.
Guess guess_of_run(std::string_view bytes, std::size_t at, std::size_t size);

} // namespace norma::syntax
