#include "session/compared.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <string_view>
#include <utility>

#include "review/pairing.hpp"

namespace norma::session {
namespace {

/// What one side says of a file before anything is worked out.
struct Read {
  std::vector<std::string> bytes; // of itself and of all that it builds on
  std::vector<std::string> paths;
  std::string protocol; // its name
  bool whole = false;   // read without an error
};

class Side {
 public:
  Side(const text::Files& files, std::shared_ptr<workspace::Store> store)
      : all_(std::shared_ptr<const text::Files>(std::shared_ptr<void>(), &files), std::move(store)),
        snapshot_(all_.snapshot()) {}

  std::optional<NoFile> open(const std::vector<Named>& files, const std::vector<std::string>& kits,
                             const std::string& root, const CompareRequest& request) {
    auto read_kits = snapshot_.kits(kits);
    if (auto* missing = std::get_if<NoFile>(&read_kits)) return std::move(*missing);
    ask_ = {std::get<workspace::Kits>(std::move(read_kits)),
            request.on,
            root,
            false,
            request.scene,
            true,
            request.group};
    for (const Named& file : files)
      snapshot_.call(file.path);
    for (const Named& file : files) {
      const auto built = snapshot_.built(file.path, root);
      if (const auto* missing = std::get_if<NoFile>(&built)) return *missing;
      Read read;
      const auto& file_built = *std::get<std::shared_ptr<const workspace::Built>>(built);
      read.whole = file_built.protocol != nullptr;
      for (const workspace::File& f : file_built.files) {
        read.bytes.emplace_back(f.version->source->bytes());
        read.paths.push_back(f.id);
        if (read.paths.size() == 1) read.protocol = f.protocol;
        const auto worst = f.findings->worst();
        if (worst == diag::Severity::error) read.whole = false;
      }
      read_.push_back(std::move(read));
    }
    return std::nullopt;
  }
  [[nodiscard]] const std::vector<Read>& read() const { return read_; }
  [[nodiscard]] const workspace::Kits& kits() const { return ask_.kits; }

  std::variant<std::shared_ptr<const report::Report>, NoFile> report(const std::string& path) {
    auto answer = snapshot_.report({path}, ask_);
    if (auto* missing = std::get_if<NoFile>(&answer)) return std::move(*missing);
    return std::make_shared<const report::Report>(std::get<report::Report>(std::move(answer)));
  }

 private:
  workspace::Workspace all_;
  workspace::Snapshot snapshot_;
  workspace::Ask ask_;
  std::vector<Read> read_;
};

/// Lines of a text, sorted: what a file is like.
std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> out;
  while (!text.empty()) {
    const std::size_t stop = std::min(text.find('\n'), text.size());
    if (stop > 0) out.push_back(text.substr(0, stop));
    text.remove_prefix(std::min(stop + 1, text.size()));
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::string_view own_bytes(const Read& read) {
  return read.bytes.empty() ? std::string_view() : std::string_view(read.bytes.front());
}

/// Pairs each that is left with the first of before that has most, and at least half, of its lines.
void most_alike(const std::vector<Read>& before, const std::vector<Read>& after,
                review::Pairing& pairs) {
  constexpr std::size_t most = 200; // each is held against each
  const std::vector<std::size_t> left = pairs.left_after();
  if (std::max(left.size(), pairs.left_before().size()) > most) return;
  for (const std::size_t a : left) {
    const auto lines = lines_of(own_bytes(after[a]));
    std::size_t most_shared = 0;
    std::optional<std::size_t> best;
    for (const std::size_t b : pairs.left_before()) {
      const auto others = lines_of(own_bytes(before[b]));
      std::vector<std::string_view> both;
      std::set_intersection(lines.begin(), lines.end(), others.begin(), others.end(),
                            std::back_inserter(both));
      if (2 * both.size() < std::max(lines.size(), others.size()) || both.size() <= most_shared)
        continue;
      most_shared = both.size();
      best = b;
    }
    if (best) pairs.pair(*best, a);
  }
}

/// By what stands in them; then by both names, by the protocol's; then those that are most alike.
/// Where there is one file on each side, it is the same one.
review::Matching matched(const CompareRequest& request, const std::vector<Read>& before,
                         const std::vector<Read>& after) {
  review::Pairing pairs(before.size(), after.size());
  using Key = std::optional<std::pair<std::string_view, std::string_view>>;
  const auto by = [&](const auto& key, bool with_name) {
    const auto of = [&](const Named& file, const Read& read) {
      const std::string_view own = key(read);
      if (with_name) return Key({file.name, own});
      return own.empty() ? Key() : Key({"", own});
    };
    pairs.by([&](std::size_t i) { return of(request.before[i], before[i]); },
             [&](std::size_t i) { return of(request.after[i], after[i]); });
  };
  const auto protocol = [](const Read& read) { return std::string_view(read.protocol); };
  by(own_bytes, true);
  by(own_bytes, false);
  by(protocol, true);
  by(protocol, false);
  most_alike(before, after, pairs);
  if (before.size() == 1 && after.size() == 1 && pairs.free_before(0)) pairs.pair(0, 0);
  return pairs.matching();
}

std::vector<review::KitPair> kit_pairs(const workspace::Kits& before,
                                       const workspace::Kits& after) {
  if (after.empty()) return {{"", true}};
  std::vector<review::KitPair> out;
  for (std::size_t i = 0; i < after.size(); ++i) {
    const bool same = before[i]->version->source->bytes() == after[i]->version->source->bytes();
    out.push_back({after[i]->kit->name.value_or(after[i]->path), same});
  }
  return out;
}

} // namespace

CompareAnswer compared(const text::Files& before, const text::Files& after,
                       const CompareRequest& request) {
  const auto store = std::make_shared<workspace::Store>();
  Side old_side(before, store);
  Side new_side(after, store);
  if (auto missing =
          old_side.open(request.before, request.kits_before, request.root_before, request))
    return *missing;
  if (auto missing = new_side.open(request.after, request.kits_after, request.root_after, request))
    return *missing;
  for (const workspace::Kits* kits : {&old_side.kits(), &new_side.kits()}) {
    for (const auto& kit : *kits) {
      if (!kit->kit->readable || kit->findings->worst() == diag::Severity::error)
        return NoKit{kit->path};
    }
  }
  Compared out;
  review::Comparison& all = out.comparison;
  all.kits = kit_pairs(old_side.kits(), new_side.kits());
  const bool same_kits = std::all_of(all.kits.begin(), all.kits.end(),
                                     [](const review::KitPair& k) { return k.same; });
  std::map<std::string, int> places; // of files of after, by their path
  std::vector<const Read*> reads;
  bool any_group = false; // somebody speaks of the group that was asked for
  std::size_t unread = 0;
  for (const auto& [b, a] : matched(request, old_side.read(), new_side.read())) {
    const auto at = [](const std::vector<Read>& all_read, int i) -> const Read* {
      return i < 0 ? nullptr : &all_read[static_cast<std::size_t>(i)];
    };
    const Read* x = at(old_side.read(), b);
    const Read* y = at(new_side.read(), a);
    // What cannot be read is not the same, whatever its bytes; and of a group nobody knows yet
    // whether it is there.
    if (x != nullptr && y != nullptr && same_kits && x->bytes == y->bytes && x->whole && y->whole &&
        request.group.empty()) {
      ++all.unchanged;
      continue;
    }
    review::FilePair pair;
    const auto report_of = [&](Side& side, const Named& file,
                               std::shared_ptr<const report::Report>& to) {
      auto answer = side.report(file.path);
      if (auto* missing = std::get_if<NoFile>(&answer)) return std::optional(std::move(*missing));
      to = std::get<std::shared_ptr<const report::Report>>(std::move(answer));
      return std::optional<NoFile>();
    };
    if (x != nullptr) {
      const Named& file = request.before[static_cast<std::size_t>(b)];
      pair.path_before = file.name;
      if (auto missing = report_of(old_side, file, pair.before)) return *missing;
    }
    if (y != nullptr) {
      const Named& file = request.after[static_cast<std::size_t>(a)];
      pair.path_after = file.name;
      if (auto missing = report_of(new_side, file, pair.after)) return *missing;
    }
    const bool sound = (x == nullptr || x->whole) && (y == nullptr || y->whole);
    const auto empty = [](const std::shared_ptr<const report::Report>& report) {
      return report == nullptr || report->held.empty();
    };
    if (!sound) ++unread;
    if (!request.group.empty() && sound && empty(pair.before) && empty(pair.after)) {
      ++all.unchanged; // it says nothing for this group on either side
      continue;
    }
    any_group = any_group || !empty(pair.before) || !empty(pair.after);
    pair.own_file_same = x != nullptr && y != nullptr && x->bytes.front() == y->bytes.front();
    if (y != nullptr) places.emplace(y->paths.front(), static_cast<int>(all.files.size()));
    reads.push_back(y);
    all.files.push_back(std::move(pair));
  }
  for (std::size_t i = 0; i < all.files.size(); ++i) {
    if (reads[i] == nullptr) continue;
    for (std::size_t base = 1; base < reads[i]->paths.size(); ++base) {
      const auto found = places.find(reads[i]->paths[base]);
      if (found != places.end()) all.files[i].builds_on.push_back(found->second);
    }
  }
  if (!request.group.empty() && !any_group && unread == 0) return NoGroup{};
  review::compare(all);
  out.counters = store->counters();
  return out;
}

} // namespace norma::session
