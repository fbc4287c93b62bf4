#include "cli/watching.hpp"

#include <fmt/core.h>

#include <chrono>
#include <thread>

#include "session/watch.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::milliseconds between{250};

/// What a run is to be held against that could not say what it read.
std::vector<session::Seen> asked_for(const Options& options) {
  std::vector<session::Seen> out;
  for (const auto* all : {&options.files, &options.kits}) {
    for (const std::string& path : *all) {
      text::ReadResult read = options.reading->read(path);
      auto* bytes = std::get_if<std::string>(&read);
      out.push_back({path, bytes == nullptr ? std::nullopt : std::optional(std::move(*bytes))});
    }
  }
  return out;
}

} // namespace

bool keeps_last(const Options& options, bool whole, Outcome& outcome) {
  if (!options.watch || whole) return false;
  outcome.err +=
      fmt::format("norma: not whole; {} stays as it was\n", text::printable(options.output));
  return true;
}

Outcome watched(const Options& options, Outcome (*command)(const Options&)) {
  if (options.output.empty())
    return could_not_run("--watch writes a file anew at each save: say which, with -o FILE");
  if (!options.tell || !options.stop) return could_not_run("--watch cannot be had here");
  session::Watch watch(*options.reading);
  std::vector<std::string> folders;
  for (const std::string& one : options.files) {
    if (text::is_folder(one)) folders.push_back(one);
  }
  while (true) {
    const auto begun = Clock::now();
    auto seen = std::make_shared<std::vector<session::Seen>>();
    // Before the run, for a run that fails: a save while it ran is one that counts.
    std::vector<session::Seen> before = asked_for(options);
    Options once = options;
    once.read = [&](const text::Sources& sources) {
      for (std::uint32_t i = 0; i < sources.size(); ++i) {
        const text::Source& one = sources[text::FileId{i}];
        seen->push_back({one.name(), std::string(one.bytes())});
      }
    };
    Outcome outcome = command(once);
    if (outcome.needs_press) return outcome;
    const bool failed = outcome.code == 2;
    if (!outcome.err.empty()) options.tell(outcome.err);
    if (failed) {
      options.tell(fmt::format("norma: {} stays as it was\n", text::printable(options.output)));
    } else if (outcome.written) {
      options.tell(fmt::format("norma: {} is written; waiting for the next save (Ctrl-C ends)\n",
                               text::printable(options.output)));
    }
    watch.follow(seen->empty() ? std::move(before) : std::move(*seen), folders,
                 {".norma", ".yaml", ".yml"});
    if (!watch.changed(options.stop)) return {};
    const auto next = begun + between;
    if (Clock::now() < next) std::this_thread::sleep_until(next);
  }
}

} // namespace norma::cli
