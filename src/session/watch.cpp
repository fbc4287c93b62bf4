#include "session/watch.hpp"

#include <poll.h>
#include <sys/inotify.h>

#include <algorithm>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <thread>

namespace norma::session {
namespace {

constexpr std::uint32_t events =
    IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_CREATE | IN_DELETE | IN_ATTRIB;
constexpr int turn = 200;     // ms between two questions whether to stop
constexpr int reading = 2000; // ms between two looks at files of which nothing was told
constexpr int quiet = 80;     // ms without news, and a save is over
constexpr int longest = 1000; // ms of saving after which it is not waited for

std::string folder_of(const std::filesystem::path& file) {
  const std::string folder = file.parent_path().string();
  return folder.empty() ? "." : folder;
}

} // namespace

Watch::Watch(const text::Files& files)
    : files_(files), kernel_(::inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {}

void Watch::look_at_folder(const std::string& folder) {
  if (kernel_.get() < 0 ||
      std::find(looked_at_.begin(), looked_at_.end(), folder) != looked_at_.end())
    return;
  // Where it cannot be had, the files are read all the same.
  if (::inotify_add_watch(kernel_.get(), folder.c_str(), events) >= 0) looked_at_.push_back(folder);
}

void Watch::follow(std::vector<Seen> files, const std::vector<std::string>& folders,
                   std::vector<std::string> endings) {
  seen_ = std::move(files);
  endings_ = std::move(endings);
  for (const Seen& one : seen_) {
    if (files_.is_fixed(one.path)) continue;
    look_at_folder(folder_of(one.path));
    std::error_code none;
    const auto behind = std::filesystem::canonical(one.path, none); // of a link
    if (!none) look_at_folder(folder_of(behind));
  }
  for (const std::string& folder : folders)
    look_at_folder(folder);
}

bool Watch::another() const {
  return std::any_of(seen_.begin(), seen_.end(), [&](const Seen& one) {
    if (files_.is_fixed(one.path)) return false;
    const text::ReadResult now = files_.read(one.path);
    const auto* bytes = std::get_if<std::string>(&now);
    return one.bytes ? bytes == nullptr || *bytes != *one.bytes : bytes != nullptr;
  });
}

Watch::News Watch::wait(int milliseconds) {
  if (kernel_.get() < 0) {
    std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
    return News::none;
  }
  pollfd one{kernel_.get(), POLLIN, 0};
  if (::poll(&one, 1, milliseconds) <= 0) return News::none;
  News out = News::none;
  alignas(inotify_event) char piece[8192];
  for (ssize_t got = 0; (got = ::read(kernel_.get(), piece, sizeof piece)) > 0;) {
    for (const char* at = piece; at < piece + got;) {
      inotify_event event;
      std::memcpy(&event, at, sizeof event);
      const std::string_view name = event.len > 0 ? at + sizeof event : "";
      at += sizeof event + event.len;
      const bool counts = std::any_of(endings_.begin(), endings_.end(),
                                      [&](const auto& ending) { return name.ends_with(ending); });
      const bool came = (event.mask & (IN_CREATE | IN_MOVED_TO | IN_DELETE | IN_MOVED_FROM)) != 0;
      out = std::max(out, counts && came ? News::new_file : News::some);
    }
  }
  return out;
}

bool Watch::changed(const std::function<bool()>& stopped) {
  int unread = reading;
  News news = News::some; // what was saved since it was read
  while (!stopped()) {
    if (news == News::new_file || ((news == News::some || unread >= reading) && another())) {
      for (int waited = 0; waited < longest && wait(quiet) != News::none; waited += quiet) {
      }
      return true;
    }
    if (unread >= reading) unread = 0;
    news = wait(turn);
    unread += turn;
  }
  return false;
}

} // namespace norma::session
