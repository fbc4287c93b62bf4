#include "web/host.hpp"

#include <arpa/inet.h>
#include <microhttpd.h>
#include <netinet/in.h>
#include <sys/socket.h>

#include <algorithm>
#include <cerrno>
#include <condition_variable>
#include <cstring>
#include <map>
#include <mutex>
#include <set>
#include <thread>

namespace norma::web {
namespace {

using Clock = std::chrono::steady_clock;

struct Free {
  void operator()(MHD_Response* response) const { MHD_destroy_response(response); }
};
using Response = std::unique_ptr<MHD_Response, Free>;

class HttpHost final : public live::Host {
 public:
  HttpHost(live::Site& site, const Bounds& bounds) : site_(site), bounds_(bounds) {}

  ~HttpHost() override {
    if (daemon_ == nullptr) return;
    site_.on_change({});
    {
      const std::lock_guard lock(mutex_);
      stopping_ = true;
      resume_all();
    }
    ended_.notify_all();
    watch_.join();
    MHD_stop_daemon(daemon_);
  }

  /// Why it does not listen; "" where it does.
  std::string start(std::uint16_t port) {
    sockaddr_in at{};
    at.sin_family = AF_INET;
    at.sin_port = htons(port);
    at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const auto seconds = static_cast<unsigned>(
        std::max<std::chrono::milliseconds::rep>(1, bounds_.silence.count() / 1000));
    daemon_ = MHD_start_daemon(
        MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_AUTO | MHD_ALLOW_SUSPEND_RESUME, port, nullptr,
        nullptr, &HttpHost::asked, this, MHD_OPTION_SOCK_ADDR, &at, MHD_OPTION_CONNECTION_LIMIT,
        bounds_.connections, MHD_OPTION_CONNECTION_MEMORY_LIMIT, bounds_.bytes,
        MHD_OPTION_CONNECTION_TIMEOUT, seconds, MHD_OPTION_STRICT_FOR_CLIENT, 1,
        MHD_OPTION_UNESCAPE_CALLBACK, &HttpHost::as_it_is, this, MHD_OPTION_URI_LOG_CALLBACK,
        &HttpHost::begun, this, MHD_OPTION_NOTIFY_CONNECTION, &HttpHost::came_or_went, this,
        MHD_OPTION_NOTIFY_COMPLETED, &HttpHost::completed, this, MHD_OPTION_END);
    if (daemon_ == nullptr) return std::strerror(errno);
    const MHD_DaemonInfo* info = MHD_get_daemon_info(daemon_, MHD_DAEMON_INFO_BIND_PORT);
    if (info == nullptr) return std::strerror(errno);
    site_.listens_at(info->port);
    site_.on_change([this] {
      const std::lock_guard lock(mutex_);
      resume_all();
    });
    watch_ = std::thread([this] { watch(); });
    return {};
  }

 private:
  /// What is sent to one page, event by event.
  struct Stream {
    HttpHost* host = nullptr;
    MHD_Connection* connection = nullptr;
    std::string out;
    std::size_t sent = 0;
    std::uint64_t number = 0; // of the state that was sent last
    bool any = false;
    std::uint64_t beats = 0;
  };
  /// A connection that has not yet asked for anything whole.
  struct Waiting {
    int socket = -1;
    Clock::time_point since;
  };

  static std::size_t as_it_is(void*, MHD_Connection*, char* text) { return std::strlen(text); }

  /// The address as it was sent, what stands behind a `?` with it; freed in `completed`.
  static void* begun(void*, const char* uri, MHD_Connection*) { return new std::string(uri); }
  static void completed(void*, MHD_Connection*, void** kept, MHD_RequestTerminationCode) {
    delete static_cast<std::string*>(*kept);
    *kept = nullptr;
  }

  static void came_or_went(void* self, MHD_Connection* connection, void**,
                           MHD_ConnectionNotificationCode what) {
    auto& host = *static_cast<HttpHost*>(self);
    const std::lock_guard lock(host.mutex_);
    if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
      host.waiting_.erase(connection);
      return;
    }
    const MHD_ConnectionInfo* info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    if (info != nullptr) host.waiting_[connection] = {info->connect_fd, Clock::now()};
  }

  static std::vector<std::string_view> all_of(MHD_Connection* connection, std::string_view name) {
    struct Search {
      std::string_view name;
      std::vector<std::string_view> found;
    } search{name, {}};
    MHD_get_connection_values(
        connection, MHD_HEADER_KIND,
        [](void* into, MHD_ValueKind, const char* key, const char* value) {
          auto& wanted = *static_cast<Search*>(into);
          const std::string_view is = key;
          const bool same = std::equal(is.begin(), is.end(), wanted.name.begin(), wanted.name.end(),
                                       [](char a, char b) {
                                         const bool upper = a >= 'A' && a <= 'Z';
                                         return (upper ? static_cast<char>(a + 'a' - 'A') : a) == b;
                                       });
          if (same) wanted.found.emplace_back(value == nullptr ? "" : value);
          return MHD_YES;
        },
        &search);
    return std::move(search.found);
  }

  static MHD_Result asked(void* self, MHD_Connection* connection, const char*, const char* method,
                          const char*, const char*, std::size_t*, void** kept) noexcept {
    try {
      return static_cast<HttpHost*>(self)->answer(connection, method,
                                                  *static_cast<const std::string*>(*kept));
    } catch (const std::exception&) {
      return MHD_NO; // the connection is closed
    }
  }

  /// Answered before a body is read: none is wanted, and with one the connection is closed.
  MHD_Result answer(MHD_Connection* connection, std::string_view method, std::string_view path) {
    {
      const std::lock_guard lock(mutex_);
      waiting_.erase(connection);
    }
    live::Asked asked{method, path};
    asked.host = all_of(connection, "host");
    asked.origin = all_of(connection, "origin");
    asked.fetch_site = all_of(connection, "sec-fetch-site");
    asked.fetch_dest = all_of(connection, "sec-fetch-dest");
    const live::Answer answer = site_.answer(asked);
    const bool streams = answer.events && method == "GET";
    Response response(streams ? stream_to(connection)
                              : MHD_create_response_from_buffer(
                                    answer.body.size(),
                                    const_cast<char*>(answer.body.data()), // it is copied
                                    MHD_RESPMEM_MUST_COPY));
    unsigned code = answer.code;
    if (streams && response == nullptr) { // as many as there may be
      code = MHD_HTTP_SERVICE_UNAVAILABLE;
      response.reset(MHD_create_response_from_buffer(0, nullptr, MHD_RESPMEM_PERSISTENT));
    }
    if (response == nullptr) return MHD_NO;
    for (const auto& [name, value] : answer.headers)
      MHD_add_response_header(response.get(), name.c_str(), value.c_str());
    return MHD_queue_response(connection, code, response.get());
  }

  MHD_Response* stream_to(MHD_Connection* connection) {
    {
      const std::lock_guard lock(mutex_);
      if (streams_ >= bounds_.streams) return nullptr;
      ++streams_;
    }
    auto* stream = new Stream{this, connection, {}, 0, 0, false, 0};
    constexpr std::size_t piece = 16 * 1024;
    return MHD_create_response_from_callback(
        MHD_SIZE_UNKNOWN, piece,
        [](void* of, std::uint64_t, char* into, std::size_t room) {
          auto& its = *static_cast<Stream*>(of);
          return its.host->send(its, into, room);
        },
        stream,
        [](void* of) {
          const std::unique_ptr<Stream> its(static_cast<Stream*>(of));
          const std::lock_guard lock(its->host->mutex_);
          its->host->parked_.erase(its->connection);
          --its->host->streams_;
        });
  }

  /// Some bytes of the stream; where there are none, it waits until it is called.
  ssize_t send(Stream& stream, char* into, std::size_t room) {
    if (stream.sent == stream.out.size()) {
      const std::lock_guard lock(mutex_); // a state that comes now wakes who is parked
      if (stopping_) return MHD_CONTENT_READER_END_OF_STREAM;
      const live::Site::Event event = site_.event();
      if (!stream.any || event.number != stream.number) {
        stream.out = event.text;
      } else if (stream.beats != beats_) {
        stream.out = ": \n\n"; // a comment: is there still somebody?
      } else {
        MHD_suspend_connection(stream.connection);
        parked_.insert(stream.connection);
        return 0;
      }
      stream.any = true;
      stream.number = event.number;
      stream.beats = beats_;
      stream.sent = 0;
    }
    const std::size_t count = std::min(room, stream.out.size() - stream.sent);
    std::copy_n(stream.out.data() + stream.sent, count, into);
    stream.sent += count;
    return static_cast<ssize_t>(count);
  }

  /// By who holds the lock.
  void resume_all() {
    for (MHD_Connection* connection : parked_)
      MHD_resume_connection(connection);
    parked_.clear();
  }

  /// Ends connections that take too long to ask, and finds streams that nobody reads any more.
  void watch() {
    std::unique_lock lock(mutex_);
    const auto step = std::min(bounds_.asking, bounds_.beat) / 4;
    auto beat = Clock::now();
    while (!stopping_) {
      ended_.wait_for(lock, step, [&] { return stopping_; });
      const auto now = Clock::now();
      for (auto& [connection, waits] : waiting_) {
        if (now - waits.since > bounds_.asking) ::shutdown(waits.socket, SHUT_RDWR);
      }
      if (now - beat < bounds_.beat) continue;
      beat = now;
      ++beats_;
      resume_all();
    }
  }

  live::Site& site_;
  const Bounds bounds_;
  MHD_Daemon* daemon_ = nullptr;
  std::mutex mutex_;
  std::condition_variable ended_;
  std::thread watch_;
  bool stopping_ = false;
  unsigned streams_ = 0;
  std::uint64_t beats_ = 0;
  std::set<MHD_Connection*> parked_;
  std::map<MHD_Connection*, Waiting> waiting_;
};

} // namespace

std::variant<std::unique_ptr<live::Host>, std::string>
open_host(live::Site& site, std::uint16_t port, const Bounds& bounds) {
  auto host = std::make_unique<HttpHost>(site, bounds);
  if (std::string why = host->start(port); !why.empty()) return why;
  return host;
}

} // namespace norma::web
