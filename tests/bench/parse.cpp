// Parse to the positioned tree, in MB/s: the shipped record's views over and over, under new names.
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string>

#include "syntax/parser.hpp"
#include "text/files.hpp"

namespace {

using Clock = std::chrono::steady_clock;

/// At least `size` bytes: one protocol whose views are those of five.norma, again and again.
std::string content(const std::string& five, std::size_t size) {
  const std::size_t first = five.find("  view front");
  const std::size_t last = five.find("  series record");
  const std::string views = five.substr(first, last - first);
  std::string out = five.substr(0, first);
  for (int round = 0; out.size() < size; ++round) {
    std::string copy = views;
    for (std::size_t at = 0; (at = copy.find("  view ", at)) != std::string::npos;) {
      const std::size_t name_end = copy.find(' ', at + 7);
      copy.insert(name_end, fmt::format("_{}", round));
      at = name_end;
    }
    out += copy;
  }
  return out + "}\n";
}

/// Seconds for the fastest of `rounds`.
double fastest(const std::string& bytes, int rounds) {
  double best = 1e9;
  for (int i = 0; i < rounds; ++i) {
    norma::text::Sources sources;
    const auto id = sources.add("bench.norma", bytes);
    norma::diag::Findings findings;
    const auto start = Clock::now();
    const norma::syntax::Tree tree = norma::syntax::parse(id, sources, findings);
    const std::chrono::duration<double> took = Clock::now() - start;
    best = std::min(best, took.count());
    if (!findings.empty() || tree.nodes().size() < 1000) {
      fmt::print("the content does not parse cleanly\n");
      std::exit(1);
    }
  }
  return best;
}

} // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    fmt::print("usage: norma_bench five.norma\n");
    return 2;
  }
  const norma::text::ReadResult five = norma::text::DiskFiles().read(arguments[1]);
  if (!std::holds_alternative<std::string>(five)) {
    fmt::print("cannot read {}\n", arguments[1]);
    return 2;
  }
  double first = 0;
  for (const std::size_t megabytes : {1u, 2u, 4u, 8u}) {
    const std::string bytes = content(std::get<std::string>(five), megabytes * 1000 * 1000);
    const double rate = static_cast<double>(bytes.size()) / 1e6 / fastest(bytes, 15);
    if (first == 0) first = rate;
    fmt::print("  {} MB: {:4.0f} MB/s, time for each byte against 1 MB: {:.2f}\n", megabytes, rate,
               first / rate);
  }
}
