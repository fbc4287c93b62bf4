#include "live/site.hpp"

#include <fmt/core.h>
#include <sys/random.h>

#include <algorithm>
#include <array>

#include "live/page.hpp"
#include "text/digits.hpp"

namespace norma::live {
namespace {

/// Takes the same time whichever letters differ.
bool same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned differs = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    differs |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]);
  return differs == 0;
}

Answer plain(unsigned code, std::string_view text) {
  return {code, {{"Content-Type", "text/plain; charset=utf-8"}}, std::string(text) + "\n"};
}

/// Those that every answer has.
void guard(Answer& answer) {
  for (const auto& [name, value] : {
           std::pair{"Cache-Control", "no-store"},
           {"X-Content-Type-Options", "nosniff"},
           {"Referrer-Policy", "no-referrer"},
           {"Cross-Origin-Resource-Policy", "same-origin"},
           {"Cross-Origin-Opener-Policy", "same-origin"},
       })
    answer.headers.emplace_back(name, value);
  const bool has_policy =
      std::any_of(answer.headers.begin(), answer.headers.end(),
                  [](const auto& header) { return header.first == "Content-Security-Policy"; });
  if (!has_policy)
    answer.headers.emplace_back("Content-Security-Policy",
                                "default-src 'none'; frame-ancestors 'none'");
}

std::optional<std::size_t> number_in(std::string_view digits) {
  constexpr std::size_t most_digits = 6;
  return text::whole_number(digits, most_digits);
}

} // namespace

std::optional<std::string> random_key() {
  std::array<unsigned char, 16> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    return std::nullopt;
  std::string out;
  for (const unsigned char byte : bytes)
    out += fmt::format("{:02x}", byte);
  return out;
}

Site::Site(std::string key, const wording::Language& in) : key_(std::move(key)), in_(in) {}

void Site::listens_at(std::uint16_t port) {
  const std::lock_guard lock(mutex_);
  port_ = port;
}

std::string Site::address() const {
  const std::lock_guard lock(mutex_);
  return fmt::format("http://127.0.0.1:{}/{}/", port_, key_);
}

void Site::show(std::shared_ptr<const Shown> shown) {
  std::function<void()> told;
  {
    const std::lock_guard lock(mutex_);
    shown_ = std::move(shown);
    ++number_;
    told = on_change_;
  }
  if (told) told();
}

void Site::on_change(std::function<void()> what) {
  const std::lock_guard lock(mutex_);
  on_change_ = std::move(what);
}

Site::Event Site::event() const {
  const std::lock_guard lock(mutex_);
  if (shown_ == nullptr) return {number_, ": \n\n"};
  return {number_, fmt::format("data: {}\n\n", shown_->state())};
}

/// In the order in which least is given away. A page of another name that leads here (DNS
/// rebinding) asks by that name.
std::optional<Answer> Site::refusal(const Asked& asked) const {
  if (asked.method != "GET" && asked.method != "HEAD") {
    Answer out = plain(405, "405");
    out.headers.emplace_back("Allow", "GET, HEAD");
    return out;
  }
  std::string own;
  {
    const std::lock_guard lock(mutex_);
    own = fmt::format("127.0.0.1:{}", port_);
  }
  const Answer forbidden = plain(403, "403");
  if (asked.host.size() != 1 || asked.host.front() != own) return forbidden;
  if (std::any_of(asked.origin.begin(), asked.origin.end(),
                  [&](std::string_view origin) { return origin != "http://" + own; }))
    return forbidden;
  // A link may lead here from anywhere, as long as it opens a page of its own.
  const bool page = asked.fetch_dest.size() == 1 && asked.fetch_dest.front() == "document";
  if (std::any_of(asked.fetch_site.begin(), asked.fetch_site.end(), [&](std::string_view site) {
        return site != "same-origin" && site != "none" && !page;
      }))
    return forbidden;
  const std::string_view path = asked.path;
  if (path.size() < key_.size() + 2 || path.front() != '/' || path[key_.size() + 1] != '/' ||
      !same_secret(path.substr(1, key_.size()), key_))
    return forbidden;
  return std::nullopt;
}

Answer Site::inside(std::string_view path) const {
  if (path.empty()) {
    const auto nonce = random_key();
    if (!nonce) return plain(500, "500");
    return {200,
            {{"Content-Type", "text/html; charset=utf-8"},
             {"Content-Security-Policy", page_policy(*nonce) + "; frame-ancestors 'none'"}},
            page_html(*nonce, in_)};
  }
  if (path == "events")
    return {200, {{"Content-Type", "text/event-stream; charset=utf-8"}}, "", true};
  constexpr std::string_view of_view = "view/";
  if (path.starts_with(of_view)) {
    std::shared_ptr<const Shown> shown;
    {
      const std::lock_guard lock(mutex_);
      shown = shown_;
    }
    const auto number = number_in(path.substr(of_view.size()));
    auto json = number && shown != nullptr ? shown->view(*number) : std::nullopt;
    if (json) return {200, {{"Content-Type", "application/json; charset=utf-8"}}, *std::move(json)};
  }
  return plain(404, "404");
}

Answer Site::answer(const Asked& asked) const {
  auto refused = refusal(asked);
  Answer out = refused ? *std::move(refused) : inside(asked.path.substr(key_.size() + 2));
  guard(out);
  return out;
}

} // namespace norma::live
