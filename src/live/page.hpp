// The page itself: a frame that a stream of states fills. It asks for nothing but these and the
// views; and where an editor shows it, for nothing at all.
#pragma once

#include <string>
#include <string_view>

#include "wording/wording.hpp"

namespace norma::live {

extern const std::string_view page_style;
extern const std::string_view page_script;

/// `nonce`: lets this style and this script run, and no others.
std::string page_html(std::string_view nonce, const wording::Language& in);
/// What the page may do, as a Content-Security-Policy.
std::string page_policy(std::string_view nonce);

} // namespace norma::live
