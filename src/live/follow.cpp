#include "live/follow.hpp"

#include <utility>

#include "live/live_words.hpp"
#include "text/utf8.hpp"
#include "workspace/gather.hpp"

namespace norma::live {

Follower::Follower(std::shared_ptr<const text::Files> files, Followed what)
    : what_(std::move(what)), workspace_(std::move(files)), keeper_(what_.path, *what_.language) {}

std::shared_ptr<const Shown> Follower::lost(workspace::NoFile file) {
  if (missing_ && missing_->path == file.path && missing_->error.why == file.error.why)
    return nullptr;
  missing_ = std::move(file);
  last_ = nullptr;
  return keeper_.lost(
      said::cannot_read(text::printable(missing_->path), text::printable(missing_->error.why)));
}

std::shared_ptr<const Shown> Follower::look(words::Date on) {
  workspace_.refresh();
  const workspace::Snapshot files = workspace_.snapshot();
  auto kits = files.kits(what_.kits);
  if (auto* none = std::get_if<workspace::NoFile>(&kits)) return lost(std::move(*none));
  workspace::Ask ask;
  ask.kits = std::get<workspace::Kits>(std::move(kits));
  ask.on = on;
  ask.root = what_.root;
  ask.group = what_.group;
  auto answer = files.check(what_.path, ask);
  if (auto* none = std::get_if<workspace::NoFile>(&answer)) return lost(std::move(*none));
  auto checked = std::get<std::shared_ptr<const workspace::Checked>>(std::move(answer));
  if (checked == last_) return nullptr; // what is alike is kept once
  missing_.reset();
  last_ = checked;
  has_group_ = !checked->resolved->no_group;
  return keeper_.next(std::make_shared<const report::Report>(
      workspace::gather({what_.path}, {*checked}, ask.kits, on)));
}

} // namespace norma::live
