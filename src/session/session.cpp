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
#include "diag/missing.hpp"
#include "diag/questions.hpp"
#include "diag/terms.hpp"
#include "kit/read_kit.hpp"
#include "session/worker.hpp"

namespace norma::session {

Session::Session(const text::Files& files) : files_(files) {}
Session::~Session() = default;

std::optional<NoFile> Session::run(const Request& request) {
  report_.on = request.on;
  for (const std::string& path : request.kits) {
    text::ReadResult bytes = files_.read(path);
    if (auto* error = std::get_if<text::ReadError>(&bytes)) return NoFile{path, std::move(*error)};
    const text::FileId file = report_.sources.add(path, std::move(std::get<std::string>(bytes)));
    kits_.push_back(
        std::make_unique<kit::Kit>(kit::read_kit(file, report_.sources, report_.findings)));
  }
  tell_kits_apart(request);
  for (std::size_t i = 0; i < kits_.size(); ++i)
    report_.kits.push_back({request.kits[i], static_cast<text::FileId>(i),
                            kits_[i]->name.value_or(request.kits[i]), kits_[i].get()});
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
    workers_.push_back(std::make_unique<Worker>(files_, report_.sources, request, kits_, cache_));
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

namespace {

/// Where an exception says that its finding comes up.
diag::Said place_of(const model::Exception& e) {
  if (!e.view.empty()) return diag::term::view(e.view);
  return e.series.empty() ? diag::term::the_protocol() : diag::term::series(e.series);
}

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
  const Numbering number(report_.sources, request, workers_);
  const auto append = [&](const Worker& worker, diag::Findings& found) {
    found.move_places([&](text::Span span) { return number(worker, span); });
    report_.findings.append(std::move(found));
  };
  std::vector<std::pair<Worker*, Share*>> shares(request.protocols.size());
  for (const auto& worker : workers_) {
    for (Share& share : worker->shares())
      shares[share.index] = {worker.get(), &share};
  }
  for (const auto& [worker, share] : shares) {
    const std::string& path = request.protocols[share->index];
    if (share->no_file) return std::move(share->no_file);
    if (share->no_group && no_group_.empty()) no_group_ = path;
    std::vector<text::FileId> numbers = share->read;
    for (text::FileId& file : share->read)
      file = number(*worker, text::Span{file, 0, 0}).file;
    report_.files.push_back(
        {path, std::move(share->protocols), std::move(share->read), std::move(numbers)});
    append(*worker, share->findings);
    take_from(share->not_checked, report_.not_checked);
    take_from(share->held, report_.held);
  }
  // Each file once, whichever workers read it.
  std::map<std::string, std::pair<Worker*, diag::Findings*>> about_files;
  for (const auto& worker : workers_) {
    for (const auto& [name, found] : worker->findings_of_files())
      about_files.emplace(name, std::pair{worker.get(), found});
  }
  for (const auto& [name, about] : about_files)
    append(*about.first, *about.second);
  settle_exceptions(number);
  ask_what_holds_for_all();
  report_.findings.settle();
  return std::nullopt;
}

/// An exception that met nothing, in no group and with no kit, is a finding of its own; without a
/// kit nobody can tell.
void Session::settle_exceptions(const Numbering& number) {
  std::map<text::Span, Worker::Tried> exceptions;
  for (const auto& worker : workers_) {
    for (const auto& [span, tried] : worker->exceptions()) {
      Worker::Tried& all = exceptions[number(*worker, span)];
      if (all.exception == nullptr || tried.about < all.about) all.about = tried.about;
      all.exception = tried.exception;
      all.met = all.met || tried.met;
      // Whichever thread was first: the same one is told.
      if (all.missing.empty() || (!tried.missing.empty() && tried.missing < all.missing))
        all.missing = tried.missing;
    }
  }
  const bool unread =
      std::any_of(kits_.begin(), kits_.end(), [](const auto& kit) { return !kit->readable; });
  for (const auto& [span, tried] : exceptions) {
    const model::Exception& e = *tried.exception;
    if (tried.met) continue;
    diag::Said missing = kits_.empty() ? diag::missing::kit()
                         : unread      ? diag::missing::readable_kit()
                                       : tried.missing;
    if (!missing.empty()) {
      report_.not_checked.push_back(
          {tried.about, diag::question::accepted_comes_up(e.finding), std::move(missing)});
      continue;
    }
    diag::Diagnostic d = diag::make(diag::catalogue::accept_meets_nothing, span, e.finding,
                                    place_of(e));
    d.about = {diag::Subject{tried.about.file}};
    report_.findings.add(std::move(d)).with_help("take the line out");
  }
}

void Session::ask_what_holds_for_all() {
  const auto& held = report_.held;
  if (held.empty()) return;
  for (const report::Held& h : held) {
    const diag::Subject file{h.about.file};
    const auto& asked = report_.not_checked;
    const bool told = !asked.empty() && asked.back().about == file &&
                      asked.back().what.row == &diag::question::record_settled;
    if (h.protocol->adopted.absent() && !told)
      report_.not_checked.push_back(
          {file, diag::question::record_settled(), diag::missing::adopted()});
  }
  for (const plan::OpenQuestion& always : plan::never_checked())
    report_.not_checked.push_back({{}, always.what, always.missing});
}

} // namespace norma::session
