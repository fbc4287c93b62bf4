// What may be asked of the page's address, and what is answered. A stranger asks: whoever has no
// key, or asks from another page, gets nothing. Nothing that can be asked changes anything.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "live/shown.hpp"

namespace norma::live {

/// 32 hexadecimal digits from the system's random source (128 bits); nothing where it has none.
std::optional<std::string> random_key();

/// A request: its first line, and of its headers those that are looked at; each as often as it
/// stands there.
struct Asked {
  std::string_view method;
  std::string_view path; // as it was sent
  std::vector<std::string_view> host{};
  std::vector<std::string_view> origin{};
  // By Fetch Metadata (W3C): who asks, and for what.
  std::vector<std::string_view> fetch_site{};
  std::vector<std::string_view> fetch_dest{};
};

struct Answer {
  unsigned code = 0;
  std::vector<std::pair<std::string, std::string>> headers;
  std::string body;
  bool events = false; // the body is the stream of states
};

/// Any thread may ask, and show.
class Site {
 public:
  Site(std::string key, const wording::Language& in);

  void listens_at(std::uint16_t port);
  /// `http://127.0.0.1:PORT/KEY/`
  [[nodiscard]] std::string address() const;

  void show(std::shared_ptr<const Shown> shown);
  /// Called by whoever shows, each time.
  void on_change(std::function<void()> what);

  [[nodiscard]] Answer answer(const Asked& asked) const;
  /// The state as an event of the stream (HTML standard, server-sent events), and its number.
  struct Event {
    std::uint64_t number = 0;
    std::string text;
  };
  [[nodiscard]] Event event() const;

 private:
  [[nodiscard]] std::optional<Answer> refusal(const Asked& asked) const;
  [[nodiscard]] Answer inside(std::string_view path) const;

  const std::string key_;
  const wording::Language& in_;
  mutable std::mutex mutex_;
  std::uint16_t port_ = 0;
  std::uint64_t number_ = 0;
  std::shared_ptr<const Shown> shown_;
  std::function<void()> on_change_{};
};

/// Listens on the loopback for a site, until it goes.
class Host {
 public:
  Host() = default;
  Host(const Host&) = delete;
  Host& operator=(const Host&) = delete;
  virtual ~Host() = default;
};
/// Port 0: the system chooses. The site outlives the host. Why it cannot listen, where it cannot.
using OpenHost =
    std::function<std::variant<std::unique_ptr<Host>, std::string>(Site& site, std::uint16_t port)>;

} // namespace norma::live
