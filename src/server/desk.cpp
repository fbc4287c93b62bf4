#include "server/desk.hpp"

#include <utility>

namespace norma::server {
namespace {

std::size_t size_of(const Read& read) {
  const auto* message = std::get_if<Incoming>(&read);
  return message == nullptr ? 0 : message->size;
}

/// After these the answer to what norma works out of its own accord may be another.
bool changes_texts(const std::string& method) {
  return method.starts_with("textDocument/did") || method.starts_with("workspace/did");
}

} // namespace

Read read_in(const Frame& frame) {
  if (const auto* ended = std::get_if<Ended>(&frame)) return *ended;
  if (const auto* broken = std::get_if<Broken>(&frame)) return Unreadable{*broken};
  const auto& body = std::get<std::string>(frame);
  if (!is_bounded(body)) return Unreadable{Broken::too_long};
  In json = In::parse(body, nullptr, false);
  if (json.is_discarded()) return Unreadable{Broken::json};
  const auto version = text_in(member(&json, "jsonrpc"));
  if (version != "2.0") return Unreadable{Broken::json, true};
  Incoming out;
  out.size = body.size();
  if (const In* id = member(&json, "id")) {
    if (!id->is_number_integer() && !id->is_string() && !id->is_null())
      return Unreadable{Broken::json, true};
    if (!id->is_null()) out.id = *id;
  }
  if (const In* method = member(&json, "method")) {
    if (!method->is_string()) return Unreadable{Broken::json, true};
    out.method = method->get<std::string>();
    if (out.method.empty()) return Unreadable{Broken::json, true};
  } else if (!out.id) {
    // An answer to nobody: an error that the other side could not say more of.
    if (member(&json, "error") == nullptr) return Unreadable{Broken::json, true};
  }
  if (json.contains("params")) out.params = std::move(json["params"]);
  if (json.contains("result")) out.result = std::move(json["result"]);
  return out;
}

void Desk::call_off(const In& id) {
  for (Read& read : waiting_) {
    auto* message = std::get_if<Incoming>(&read);
    if (message != nullptr && message->id == id && !message->method.empty())
      message->cancelled = true;
  }
  if (current_ == id) cancel_.cancel();
}

void Desk::put(Read message) {
  std::unique_lock lock(mutex_);
  const std::size_t size = size_of(message);
  went_.wait(lock, [&] {
    return waiting_.empty() || (waiting_.size() < most_messages && bytes_ + size <= most_bytes);
  });
  if (const auto* incoming = std::get_if<Incoming>(&message)) {
    if (incoming->method == "$/cancelRequest") {
      if (const In* id = member(&incoming->params, "id")) call_off(*id);
      return;
    }
    if (!current_ && changes_texts(incoming->method)) cancel_.cancel();
  }
  bytes_ += size;
  waiting_.push_back(std::move(message));
  came_.notify_one();
}

void Desk::begin(std::optional<In> id) {
  current_ = std::move(id);
  cancel_ = workspace::Cancel();
}

Desk::Taken Desk::take() {
  std::unique_lock lock(mutex_);
  came_.wait(lock, [&] { return !waiting_.empty(); });
  Read out = std::move(waiting_.front());
  waiting_.pop_front();
  bytes_ -= size_of(out);
  went_.notify_one();
  const auto* message = std::get_if<Incoming>(&out);
  begin(message == nullptr ? std::nullopt : message->id);
  return {std::move(out), cancel_};
}

bool Desk::empty() const {
  const std::lock_guard lock(mutex_);
  return waiting_.empty();
}

workspace::Cancel Desk::begin_own_work() {
  const std::lock_guard lock(mutex_);
  begin(std::nullopt);
  for (const Read& read : waiting_) {
    const auto* message = std::get_if<Incoming>(&read);
    if (message != nullptr && changes_texts(message->method)) cancel_.cancel();
  }
  return cancel_;
}

} // namespace norma::server
