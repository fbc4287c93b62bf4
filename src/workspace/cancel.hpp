// Lets one thread tell another that nobody waits for its answer any more.
#pragma once

#include <atomic>
#include <memory>

namespace norma::workspace {

/// Copies are the same token.
class Cancel {
 public:
  void cancel() { *asked_ = true; }
  [[nodiscard]] bool cancelled() const { return *asked_; }
  [[nodiscard]] const std::atomic<bool>* flag() const { return asked_.get(); }

 private:
  std::shared_ptr<std::atomic<bool>> asked_ = std::make_shared<std::atomic<bool>>(false);
};

} // namespace norma::workspace
