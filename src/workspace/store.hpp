// Where results are kept, each stage for itself and bounded; several workspaces may share one.
#pragma once

#include <atomic>
#include <cstddef>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "plan/plan.hpp"
#include "text/cache.hpp"
#include "workspace/stages.hpp"

namespace norma::workspace {

/// How much is kept of each stage, in bytes, roughly; 0 keeps nothing of it.
struct Limits {
  std::size_t parsed = 32u << 20u;
  std::size_t declared = 64u << 20u;
  std::size_t built = 128u << 20u;
  /// Only what others build on; the file that was asked for is let go of as it is worked on.
  bool bases_only = false;
  std::size_t resolved = 256u << 20u;
  std::size_t kits = 16u << 20u;
  std::size_t views = 20000; // as many works
  std::size_t checked = 256u << 20u;

  /// For one run over many files, each of which is asked for once.
  static Limits batch() {
    Limits out;
    out.parsed = out.declared = out.resolved = out.checked = 0;
    out.bases_only = true;
    out.views = 500;
    return out;
  }
};

/// How often a stage was worked on, since the store was made; for tests and the curious.
struct Counters {
  std::size_t parsed = 0;
  std::size_t declared = 0;
  std::size_t built = 0;
  std::size_t resolved = 0;
  std::size_t kits_read = 0;
  std::size_t views_worked = 0;
  std::size_t checked = 0;
  std::size_t hits = 0;    // a result of any stage was there
  std::size_t evicted = 0; // a result of any stage had to go

  friend Counters operator-(const Counters& a, const Counters& b);
  friend bool operator==(const Counters&, const Counters&) = default;
};

class Store {
 public:
  explicit Store(Limits limits = {});

  /// The version of a file with this text. Texts are compared, not digests of them.
  std::shared_ptr<const Version> version(const std::string& name, std::string bytes);
  /// The same text under a number of its own, for a file that is given twice.
  std::shared_ptr<const Version> twin(const Version& version);
  [[nodiscard]] std::uint64_t next_number() { return ++numbers_; }
  [[nodiscard]] Counters counters() const;
  [[nodiscard]] const Limits& limits() const { return limits_; }

  text::Cache<Parsed> parsed;
  text::Cache<DeclaredFile> declared;
  text::Cache<Built> built;
  text::Cache<Resolved> resolved;
  text::Cache<KitRead> kits;
  text::Cache<Checked> checked;
  plan::WorkCache works;

  /// Counted by whoever works on a stage.
  struct Worked {
    std::atomic<std::size_t> parsed{0}, declared{0}, built{0}, resolved{0}, kits_read{0},
        checked{0};
  } worked;

 private:
  Limits limits_;
  std::mutex mutex_;
  std::unordered_map<std::string, std::vector<std::weak_ptr<const Version>>> versions_; // by name
  std::size_t swept_ = 0; // names that were left when those without a version were taken out
  std::uint32_t last_id_ = 0;
  std::atomic<std::uint64_t> numbers_{0};
};

} // namespace norma::workspace
