#include "session/compared.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace norma::session {
namespace {

/// What one side says of a file before anything is worked out.
struct Read {
  std::vector<std::string> bytes; // of itself and of all that it builds on
  std::vector<std::string> paths;
  std::string protocol; // its name
  
};

/// Files that changed: their places on both sides, -1 for none.
using Pairs = std::vector<std::pair<int, int>>;

class Side {
 public:
  Side(const text::Files& files, std::shared_ptr<workspace::Store> store)
      : all_(std::shared_ptr<const text::Files>(std::shared_ptr<void>(), &files), std::move(store)),
        snapshot_(all_.snapshot()) {}

  std::optional<NoFile> open(const std::vector<Named>& files, const std::vector<std::string>& kits,
                             const CompareRequest& request) {
    auto read_kits = snapshot_.kits(kits);
    if (auto* missing = std::get_if<NoFile>(&read_kits)) return std::move(*missing);
    ask_ = {std::get<workspace::Kits>(std::move(read_kits)), request.on, request.root, false,
            request.scene, true, request.group};
    for (const Named& file : files)
      snapshot_.call(file.path);
    for (const Named& file : files) {
      const auto built = snapshot_.built(file.path, request.root);
      if (const auto* missing = std::get_if<NoFile>(&built)) return *missing;
      Read read;
      for (const workspace::File& f :
           std::get<std::shared_ptr<const workspace::Built>>(built)->files) {
        read.bytes.emplace_back(f.version->source->bytes());
        read.paths.push_back(f.id);
        if (read.paths.size() == 1) read.protocol = f.protocol;
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

/// By what they are called, then by what stands in them, then by the protocol's name; where one is
/// left on both sides, it is the same one.
class FileMatcher {
 public:
  FileMatcher(const CompareRequest& request, const std::vector<Read>& before,
              const std::vector<Read>& after)
      : request_(request), before_(before), after_(after), taken_(before.size(), false),
        of_after_(after.size(), -1) {}

  Pairs run() {
    by([&](std::size_t i) { return request_.before[i].name; },
       [&](std::size_t i) { return request_.after[i].name; });
    by([&](std::size_t i) { return own(before_[i]); }, [&](std::size_t i) { return own(after_[i]); });
    by([&](std::size_t i) { return before_[i].protocol; },
       [&](std::size_t i) { return after_[i].protocol; });
    Pairs out;
    std::vector<int> left;
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      if (!taken_[i]) left.push_back(static_cast<int>(i));
    }
    const auto alone = std::count(of_after_.begin(), of_after_.end(), -1);
    for (std::size_t a = 0; a < of_after_.size(); ++a) {
      if (of_after_[a] < 0 && alone == 1 && left.size() == 1) {
        of_after_[a] = left.front();
        left.clear();
      }
      out.emplace_back(of_after_[a], static_cast<int>(a));
    }
    for (const int b : left)
      out.emplace_back(b, -1);
    return out;
  }

 private:
  static std::string own(const Read& read) {
    return read.bytes.empty() ? std::string() : read.bytes.front();
  }
  template <class Before, class After> void by(Before before, After after) {
    std::map<std::string, std::vector<std::size_t>> free;
    for (std::size_t i = taken_.size(); i-- > 0;) {
      if (!taken_[i]) free[before(i)].push_back(i);
    }
    for (std::size_t a = 0; a < of_after_.size(); ++a) {
      if (of_after_[a] >= 0) continue;
      const std::string key = after(a);
      const auto found = free.find(key);
      if (key.empty() || found == free.end() || found->second.empty()) continue;
      of_after_[a] = static_cast<int>(found->second.back());
      taken_[found->second.back()] = true;
      found->second.pop_back();
    }
  }

  const CompareRequest& request_;
  const std::vector<Read>& before_;
  const std::vector<Read>& after_;
  std::vector<bool> taken_;
  std::vector<int> of_after_;
};

std::vector<review::KitPair> kit_pairs(const workspace::Kits& before, const workspace::Kits& after) {
  if (after.empty()) return {{"", true}};
  std::vector<review::KitPair> out;
  for (std::size_t i = 0; i < after.size(); ++i) {
    const bool same = before[i]->version->source->bytes() == after[i]->version->source->bytes();
    out.push_back({after[i]->kit->name.value_or(after[i]->path), same});
  }
  return out;
}

} // namespace

std::variant<Compared, NoFile> compared(const text::Files& before, const text::Files& after,
                                        const CompareRequest& request) {
  const auto store = std::make_shared<workspace::Store>();
  Side old_side(before, store);
  Side new_side(after, store);
  if (auto missing = old_side.open(request.before, request.kits_before, request)) return *missing;
  if (auto missing = new_side.open(request.after, request.kits_after, request)) return *missing;
  Compared out;
  review::Comparison& all = out.comparison;
  all.kits = kit_pairs(old_side.kits(), new_side.kits());
  const bool same_kits = std::all_of(all.kits.begin(), all.kits.end(),
                                     [](const review::KitPair& k) { return k.same; });
  std::map<std::string, int> places; // of files of after, by their path
  std::vector<const Read*> reads;
  for (const auto& [b, a] : FileMatcher(request, old_side.read(), new_side.read()).run()) {
    const auto at = [](const std::vector<Read>& all_read, int i) -> const Read* {
      return i < 0 ? nullptr : &all_read[static_cast<std::size_t>(i)];
    };
    const Read* x = at(old_side.read(), b);
    const Read* y = at(new_side.read(), a);
    if (x != nullptr && y != nullptr && same_kits && x->bytes == y->bytes) {
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
  review::compare(all);
  out.counters = store->counters();
  return out;
}

} // namespace norma::session
