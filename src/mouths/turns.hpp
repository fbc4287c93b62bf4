// Many alike things on several threads.
#pragma once

#include <cstddef>
#include <thread>
#include <vector>

namespace norma::mouths {

/// `work` for each number below `count`; each once, by whichever thread.
template <class Work> void in_turns(std::size_t count, unsigned threads, const Work& work) {
  const std::size_t step = threads == 0 ? 1 : threads;
  const auto some = [&](std::size_t first) {
    for (std::size_t i = first; i < count; i += step)
      work(i);
  };
  std::vector<std::jthread> others; // joined where they end, also when one could not be started
  for (std::size_t t = 1; t < step && t < count; ++t)
    others.emplace_back(some, t);
  some(0);
}

} // namespace norma::mouths
