#include <fmt/core.h>

#include <algorithm>
#include <memory>

#include "cli/commands.hpp"
#include "live/follow.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

using std::chrono::milliseconds;
using Clock = std::chrono::steady_clock;

/// How often files are looked at; less often where a look takes long, so that no more than a
/// twentieth of the time goes into it.
constexpr milliseconds usual_pause{100};
constexpr int share = 20;
/// A text that is just being written is let be written.
constexpr milliseconds while_written{25};
constexpr int most_waits = 20;

class Watch {
 public:
  Watch(const Options& options, live::Follower& follower, live::Site& site)
      : options_(options), follower_(follower), site_(site) {}

  void run() {
    milliseconds pause = usual_pause;
    while (options_.wait(pause)) {
      const auto begin = Clock::now();
      auto shown = look();
      pause = std::max(usual_pause,
                       share * std::chrono::duration_cast<milliseconds>(Clock::now() - begin));
      for (int i = 0; shown != nullptr && i < most_waits; ++i) {
        if (!options_.wait(while_written)) return;
        auto next = look();
        if (next == nullptr) break;
        shown = std::move(next);
      }
      if (shown != nullptr) site_.show(std::move(shown));
    }
  }

 private:
  std::shared_ptr<const live::Shown> look() {
    const auto day = day_of(options_);
    const auto* on = std::get_if<words::Date>(&day);
    return on == nullptr ? nullptr : follower_.look(*on);
  }

  const Options& options_;
  live::Follower& follower_;
  live::Site& site_;
};

} // namespace

Outcome live(const Options& options) {
  if (!options.open_host) {
    Outcome out = could_not_run(
        "a page needs the program norma-press beside norma, and it is not there; `norma plan "
        "--picture` draws one view");
    out.needs_press = true;
    return out;
  }
  if (!options.wait || !options.wire.write) return could_not_run("there is nobody to tell");
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  auto files = protocol_files(options);
  if (auto* failed = std::get_if<Outcome>(&files)) return std::move(*failed);
  const auto& paths = std::get<std::vector<std::string>>(files);
  if (paths.size() != 1)
    return could_not_run(fmt::format("live shows one protocol; there are {} below {}", paths.size(),
                                     options.files.front()));
  live::Follower follower(options.reading, {paths.front(), options.kits, options.root,
                                            options.group, options.language});
  auto first = follower.look(std::get<words::Date>(day));
  if (const auto& none = follower.missing())
    return could_not_run(fmt::format("cannot read {}: {}", none->path, none->error.why));
  if (!follower.has_group()) return no_such_group(paths.front(), options.group, {});
  auto key = live::random_key();
  if (!key) return could_not_run("the system has no random numbers for the page's address");
  live::Site site(*std::move(key), *options.language);
  site.show(std::move(first));
  auto host = options.open_host(site, static_cast<std::uint16_t>(options.port));
  if (const auto* why = std::get_if<std::string>(&host))
    return could_not_run(fmt::format("cannot listen on this machine: {}", *why));
  options.wire.write(
      fmt::format("{} is shown at\n  {}\nOpen it in a browser. It is shown anew each "
                  "time you save; Ctrl-C ends it.\n",
                  text::printable(paths.front()), site.address()));
  Watch(options, follower, site).run();
  return {};
}

} // namespace norma::cli
