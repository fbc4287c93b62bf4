// A site on the loopback, over HTTP. Strangers on this machine may connect: what each may cost is
// bounded, in bytes, time and number.
#pragma once

#include <chrono>
#include <memory>
#include <string>
#include <variant>

#include "live/site.hpp"

namespace norma::web {

struct Bounds {
  unsigned connections = 64;
  unsigned streams = 16;                    // of states; a page has one
  std::size_t bytes = 16 * 1024;            // of a connection: its headers have to fit
  std::chrono::milliseconds silence{10000}; // nothing comes in
  std::chrono::milliseconds asking{20000};  // until all of a request is there
  std::chrono::milliseconds beat{15000};    // a stream says that it is there
};

std::variant<std::unique_ptr<live::Host>, std::string>
open_host(live::Site& site, std::uint16_t port, const Bounds& bounds = {});

} // namespace norma::web
