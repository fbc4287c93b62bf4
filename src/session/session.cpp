#include "session/session.hpp"

#include <malloc.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <thread>

#include "workspace/gather.hpp"

namespace norma::session {
namespace {

using Result = workspace::Answer<workspace::Checked>;

/// A thread's heap grows page by page, and each step stops all threads that touch a new page. So
/// room is asked for in one piece; what is not used costs no memory.
void let_heaps_grow() {
  constexpr int heap_size = 64 * 1024 * 1024;  // of one heap of a thread (glibc)
  constexpr int own_mapping = 4 * 1024 * 1024; // from here on a piece of memory is mapped alone
  mallopt(M_TOP_PAD, heap_size);
  mallopt(M_MMAP_THRESHOLD, own_mapping);
}

workspace::Ask own_of(const workspace::Ask& of_all, const Own& own) {
  workspace::Ask out = of_all;
  out.kits.clear();
  for (const std::size_t kit : own.kits)
    out.kits.push_back(of_all.kits[kit]);
  out.patients = own.patients;
  return out;
}

/// Hands the protocols out, one after the other, to as many threads as there are.
std::vector<Result> work(const workspace::Snapshot& files, const workspace::Ask& ask,
                         const Request& request) {
  const std::size_t count = request.protocols.size();
  const std::size_t threads =
      std::min<std::size_t>(threads_for(request.threads), std::max(count, std::size_t{1}));
  std::vector<Result> results(count, workspace::Cancelled{});
  std::atomic<std::size_t> next{0};
  std::atomic<std::size_t> done{0};
  const auto take_all = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      results[i] = files.check_once(request.protocols[i],
                                    request.own.empty() ? ask : own_of(ask, request.own[i]));
      ++done;
    }
  };
  if (threads == 1 && !request.progress) {
    take_all();
    return results;
  }
  let_heaps_grow();
  std::vector<std::thread> running;
  for (std::size_t i = 0; i < threads; ++i)
    running.emplace_back(take_all);
  if (request.progress) {
    while (done < count) {
      request.progress(done);
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    request.progress(count);
  }
  for (std::thread& t : running)
    t.join();
  return results;
}

} // namespace

unsigned threads_for(unsigned asked) {
  constexpr unsigned most = 16;
  return std::min(asked > 0 ? asked : std::max(1u, std::thread::hardware_concurrency()), most);
}

workspace::Ask ask_of(const Request& request, workspace::Kits kits) {
  return {std::move(kits), request.on,    request.root, request.fingerprints,
          request.scene,   request.plans, request.group};
}

Session::Session() : store_(std::make_shared<workspace::Store>(workspace::Limits::batch())) {}

std::optional<NoFile> Session::run(const text::Files& files, const Request& request) {
  report_ = {};
  no_group_.clear();
  // They are the caller's, and seen by nobody once this call is over.
  workspace::Workspace all(std::shared_ptr<const text::Files>(std::shared_ptr<void>(), &files),
                           store_);
  for (const Overlay& over : request.overlays)
    all.edit(over.path, over.text);
  const workspace::Snapshot snapshot = all.snapshot();
  auto kits = snapshot.kits(request.kits);
  if (auto* missing = std::get_if<NoFile>(&kits)) return std::move(*missing);
  const workspace::Ask ask = ask_of(request, std::get<workspace::Kits>(std::move(kits)));
  for (const std::string& path : request.protocols)
    snapshot.call(path);
  std::vector<Result> results = work(snapshot, ask, request);
  std::vector<workspace::Checked> checked;
  checked.reserve(results.size());
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (auto* missing = std::get_if<NoFile>(&results[i])) return std::move(*missing);
    checked.push_back(std::get<workspace::Checked>(std::move(results[i])));
    if (checked.back().resolved->no_group) no_group_.push_back(request.protocols[i]);
  }
  report_ = workspace::gather(request.protocols, std::move(checked), ask.kits, request.on,
                              request.all_findings ? diag::Findings::kept : diag::Findings::most);
  return std::nullopt;
}

} // namespace norma::session
