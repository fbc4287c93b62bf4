// The picture of the protocol under work: on a page of its own (`norma live`), or where the editor
// shows it. What comes of each edit is handed on; nothing is worked out for it.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>

#include "live/site.hpp"
#include "wording/wording.hpp"

namespace norma::server {

class LivePage {
 public:
  /// `open_host` is none where this program cannot listen.
  LivePage(live::OpenHost open_host, const wording::Language& in)
      : open_host_(std::move(open_host)), in_(in) {}

  [[nodiscard]] bool can_listen() const { return static_cast<bool>(open_host_); }
  /// Listens, where it does not yet: its address, or why it cannot.
  std::variant<std::string, diag::Said> open();
  /// The editor is told each state from now on.
  void tell(std::function<void(const live::Shown&)> whom) { told_ = std::move(whom); }

  /// The file that is shown.
  [[nodiscard]] const std::string& file() const { return file_; }
  void show_file(const std::string& file);
  /// Is there somebody who looks at this file?
  [[nodiscard]] bool wants(const std::string& file) const {
    return file == file_ && (site_ != nullptr || told_);
  }
  void show(std::shared_ptr<const report::Report> report);
  void lost(const diag::Said& why);
  /// Null where nothing was shown yet.
  [[nodiscard]] std::shared_ptr<const live::Shown> shown() const {
    return keeper_ == nullptr ? nullptr : keeper_->now();
  }

 private:
  void put(std::shared_ptr<const live::Shown> shown);

  live::OpenHost open_host_;
  const wording::Language& in_;
  std::function<void(const live::Shown&)> told_;
  std::string file_;
  std::unique_ptr<live::Keeper> keeper_;
  std::unique_ptr<live::Site> site_;
  std::unique_ptr<live::Host> host_; // goes before its site
};

} // namespace norma::server
