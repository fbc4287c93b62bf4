#include "session/session.hpp"

#include <fmt/core.h>
#include <malloc.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <map>
#include <set>
#include <thread>

#include "diag/catalogue.hpp"
#include "kit/read_kit.hpp"
#include "session/worker.hpp"

namespace norma::session {

Session::Session(const text::Files& files) : files_(files) {}
Session::~Session() = default;

std::optional<NoFile> Session::run(const Request& request) {
  on_ = request.on;
  files_asked_ = request.protocols.size();
  for (const std::string& path : request.kits) {
    text::ReadResult bytes = files_.read(path);
    if (auto* error = std::get_if<text::ReadError>(&bytes)) return NoFile{path, std::move(*error)};
    const text::FileId file = sources_.add(path, std::move(std::get<std::string>(bytes)));
    kits_.push_back(std::make_unique<kit::Kit>(kit::read_kit(file, sources_, findings_)));
  }
  tell_kits_apart(request);
  work(request);
  return gather(request);
}

/// Of several kits each has a name of its own, with its file where it needs it: what is said of one
/// is not meant for another.
void Session::tell_kits_apart(const Request& request) {
  if (kits_.size() < 2) return;
  std::set<std::string> names;
  for (std::size_t i = 0; i < kits_.size(); ++i) {
    kit::Kit& kit = *kits_[i];
    const std::string& path = request.kits[i];
    std::string name = kit.name.value_or(path);
    if (names.count(name) == 1) name = fmt::format("{} ({})", name, path);
    if (names.count(name) == 1) name = fmt::format("{}, {}", name, i + 1);
    names.insert(name);
    kit.name = {std::move(name), kit.name.span()};
  }
}

namespace {

/// A thread's heap grows page by page, and each step stops all threads that touch a new page. So
/// room is asked for in one piece; what is not used costs no memory.
void let_heaps_grow() {
  constexpr int heap_size = 64 * 1024 * 1024;  // of one heap of a thread (glibc)
  constexpr int own_mapping = 4 * 1024 * 1024; // from here on a piece of memory is mapped alone
  mallopt(M_TOP_PAD, heap_size);
  mallopt(M_MMAP_THRESHOLD, own_mapping);
}

} // namespace

/// Hands the protocols out, one after the other, to as many threads as there are.
void Session::work(const Request& request) {
  const std::size_t count = request.protocols.size();
  std::size_t threads =
      request.threads > 0 ? request.threads : std::max(1u, std::thread::hardware_concurrency());
  constexpr std::size_t most_threads = 16;
  threads = std::clamp<std::size_t>(threads, 1, std::min(most_threads, std::max(count, 1ul)));
  for (std::size_t i = 0; i < threads; ++i)
    workers_.push_back(std::make_unique<Worker>(files_, sources_, request, kits_, cache_));
  std::atomic<std::size_t> next{0};
  std::atomic<std::size_t> done{0};
  const auto take_all = [&](Worker& worker) {
    for (std::size_t i = next++; i < count; i = next++) {
      worker.take(i);
      ++done;
    }
  };
  if (threads == 1 && !request.progress) {
    take_all(*workers_.front());
    return;
  }
  let_heaps_grow();
  std::vector<std::thread> running;
  for (const auto& worker : workers_)
    running.emplace_back([&take_all, w = worker.get()] { take_all(*w); });
  if (request.progress) {
    while (done < count) {
      request.progress(done);
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    request.progress(count);
  }
  for (std::thread& t : running)
    t.join();
}

namespace {

/// One numbering of files for what the workers found: kits, the protocols of the request in its
/// order, then what they build on by name. It does not depend on who read what.
class Numbering {
 public:
  Numbering(text::Sources& all, const Request& request,
            const std::vector<std::unique_ptr<Worker>>& workers)
      : all_(all) {
    std::map<std::string, std::vector<std::pair<const Worker*, text::FileId>>> by_name;
    for (const auto& worker : workers) {
      for (std::size_t i = request.kits.size(); i < worker->sources().size(); ++i) {
        const auto id = static_cast<text::FileId>(i);
        by_name[worker->sources()[id].name()].push_back({worker.get(), id});
      }
    }
    for (const std::string& path : request.protocols)
      add(by_name[path]);
    for (auto& [name, places] : by_name)
      add(places);
  }

  [[nodiscard]] text::Span operator()(const Worker& worker, text::Span span) const {
    const auto found = numbers_.find({&worker, span.file});
    if (found != numbers_.end()) span.file = found->second;
    return span; // kits keep theirs
  }

 private:
  void add(std::vector<std::pair<const Worker*, text::FileId>>& places) {
    // A file that changed while it was read twice stands here twice: each place has its own text.
    std::map<std::string_view, text::FileId> by_text;
    for (const auto& place : places) {
      const text::Sources& sources = place.first->sources();
      const std::string_view bytes = sources[place.second].bytes();
      const auto known = by_text.find(bytes);
      if (known == by_text.end())
        by_text.emplace(bytes, numbers_[place] = all_.share(sources, place.second));
      else
        numbers_[place] = known->second;
    }
    places.clear();
  }

  text::Sources& all_;
  std::map<std::pair<const Worker*, text::FileId>, text::FileId> numbers_;
};

/// Moves all of `from` behind `to`; nothing is left there.
template <class T> void take_from(std::vector<T>& from, std::vector<T>& to) {
  if (to.empty()) {
    to.swap(from);
    return;
  }
  std::move(from.begin(), from.end(), std::back_inserter(to));
  from.clear();
  from.shrink_to_fit();
}

} // namespace

/// Puts together what the workers found, in the order of the request.
std::optional<NoFile> Session::gather(const Request& request) {
  const Numbering number(sources_, request, workers_);
  const auto append = [&](const Worker& worker, diag::Findings& found) {
    found.move_places([&](text::Span span) { return number(worker, span); });
    findings_.append(std::move(found));
  };
  std::vector<std::pair<Worker*, Share*>> shares(request.protocols.size());
  for (const auto& worker : workers_) {
    for (Share& share : worker->shares())
      shares[share.index] = {worker.get(), &share};
  }
  for (const auto& [worker, share] : shares) {
    if (share->no_file) return std::move(share->no_file);
    if (share->no_group && no_group_.empty()) no_group_ = request.protocols[share->index];
    append(*worker, share->findings);
    take_from(share->not_checked, not_checked_);
    take_from(share->results, results_);
  }
  // Each file once, whichever workers read it.
  std::map<std::string, std::pair<Worker*, diag::Findings*>> about_files;
  for (const auto& worker : workers_) {
    for (const auto& [name, found] : worker->findings_of_files())
      about_files.emplace(name, std::pair{worker.get(), found});
  }
  for (const auto& [name, about] : about_files)
    append(*about.first, *about.second);

  // An exception that met nothing, in no group and with no kit, is a finding of its own; without a
  // kit nobody can tell.
  std::map<text::Span, Worker::Tried> exceptions;
  for (const auto& worker : workers_) {
    for (const auto& [span, tried] : worker->exceptions()) {
      Worker::Tried& all = exceptions[number(*worker, span)];
      all.exception = tried.exception;
      all.met = all.met || tried.met;
      // Whichever thread was first: the same one is told.
      if (all.missing.empty() || (!tried.missing.empty() && tried.missing < all.missing))
        all.missing = tried.missing;
    }
  }
  for (const auto& [span, tried] : exceptions) {
    const model::Exception& e = *tried.exception;
    if (tried.met) continue;
    const bool unread =
        std::any_of(kits_.begin(), kits_.end(), [](const auto& kit) { return !kit->readable; });
    const std::string missing = kits_.empty() ? "a kit"
                                : unread      ? "a kit that can be read"
                                              : tried.missing;
    if (!missing.empty()) {
      not_checked_.push_back({sources_[span.file].name(), e.view, "",
                              "whether `" + e.finding + "`, which is accepted, comes up", missing});
      continue;
    }
    findings_.add(diag::make(diag::catalogue::accept_meets_nothing, span, e.finding, e.view))
        .with_help("take the line out");
  }
  if (std::any_of(results_.begin(), results_.end(),
                  [](const Result& r) { return r.protocol->adopted.absent(); })) {
    not_checked_.push_back({"", "", "",
                            "whether revision, consent, retakes, second choices and the keeping of "
                            "files are settled",
                            "day from which the protocol holds (word `adopted`)"});
  }
  if (!results_.empty()) {
    for (const auto& limit : plan::limits)
      not_checked_.push_back({"", "", "", std::string(limit.what), std::string(limit.missing)});
  }
  findings_.settle();
  return std::nullopt;
}

} // namespace norma::session
