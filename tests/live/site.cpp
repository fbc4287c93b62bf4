// Who gets in, and what is answered.
#include "live/site.hpp"

#include <doctest/doctest.h>

#include <algorithm>

namespace norma::test {
namespace {

const std::string secret = "0123456789abcdef0123456789abcdef";

live::Asked good(std::string_view path) {
  live::Asked out{"GET", path};
  out.host = {"127.0.0.1:4711"};
  return out;
}

std::string header(const live::Answer& answer, std::string_view name) {
  const auto found = std::find_if(answer.headers.begin(), answer.headers.end(),
                                  [&](const auto& one) { return one.first == name; });
  return found == answer.headers.end() ? "" : found->second;
}

struct Open {
  Open() : site(secret, wording::english()) {
    site.listens_at(4711);
    site.show(std::make_shared<const live::Shown>("a.norma", diag::Said(), wording::english()));
  }
  live::Site site;
};

} // namespace

TEST_CASE("the page, its stream and its views, and nothing else, stand behind the key") {
  const Open open;
  CHECK(open.site.address() == "http://127.0.0.1:4711/" + secret + "/");
  const std::string front = "/" + secret + "/";
  CHECK(open.site.answer(good(front)).code == 200);
  CHECK(open.site.answer(good(front + "events")).events);
  for (const char* other :
       {"view/0",  "view/",      "view/-1",        "view/0x0", "view/99999999999999999999",
        "view/0/", "view",       "events/",        "Events",   "?",
        "?x=1",    "../",        "..%2f",          "%2e%2e/",  "/",
        "a.norma", "index.html", "view/../events", "\\",       "\xff"}) {
    CAPTURE(other);
    const live::Answer answer = open.site.answer(good(front + other));
    CHECK(answer.code == 404);
    CHECK(answer.body == "404\n");
  }
}

TEST_CASE("without the key all that can be asked is answered alike") {
  const Open open;
  std::string wrong = secret;
  wrong.back() = '0';
  for (const std::string& path :
       {std::string(), std::string("/"), "/" + wrong + "/", "/" + secret, secret + "/",
        "//" + secret + "/", "/" + secret + secret + "/", "/" + secret.substr(1) + "/",
        "/" + wrong + "/events", std::string("/events"), std::string("/view/0"), std::string("*"),
        "http://127.0.0.1:4711/" + secret + "/", "/%30" + secret.substr(1) + "/",
        "/x/../" + secret + "/", std::string(100000, '/')}) {
    CAPTURE(path.substr(0, 100));
    const live::Answer answer = open.site.answer(good(path));
    CHECK(answer.code == 403);
    CHECK(answer.body == "403\n");
    CHECK_FALSE(answer.events);
  }
}

TEST_CASE("nothing but reading is taken") {
  const Open open;
  for (const char* method : {"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get",
                             "", "GET ", "PROPFIND"}) {
    CAPTURE(method);
    const std::string path = "/" + secret + "/";
    live::Asked asked = good(path);
    asked.method = method;
    const live::Answer answer = open.site.answer(asked);
    CHECK(answer.code == 405);
    CHECK(header(answer, "Allow") == "GET, HEAD");
  }
}

TEST_CASE("who asks from another page, or by another name, gets nothing") {
  const Open open;
  const std::string path = "/" + secret + "/";
  const auto code = [&](const auto& change) {
    live::Asked asked = good(path);
    change(asked);
    return open.site.answer(asked).code;
  };
  // A name that leads here (DNS rebinding), another port, none, two.
  using Headers = std::vector<std::string_view>;
  for (const Headers& host : {Headers{},
                              {"evil.example"},
                              {"evil.example:4711"},
                              {"127.0.0.1"},
                              {"127.0.0.1:80"},
                              {"localhost:4711"},
                              {"127.0.0.1:4711", "127.0.0.1:4711"},
                              {"127.0.0.1:4711."},
                              {""},
                              {"[::1]:4711"},
                              {"127.1:4711"}}) {
    CHECK(code([&](live::Asked& asked) { asked.host = host; }) == 403);
  }
  for (const Headers& origin : {Headers{"http://evil.example"},
                                {"null"},
                                {""},
                                {"https://127.0.0.1:4711"},
                                {"http://127.0.0.1:4712"},
                                {"http://127.0.0.1:4711", "http://evil.example"}}) {
    CHECK(code([&](live::Asked& asked) { asked.origin = origin; }) == 403);
  }
  CHECK(code([](live::Asked& asked) { asked.origin = {"http://127.0.0.1:4711"}; }) == 200);
  // Fetch Metadata Request Headers (W3C working draft): what a browser says of who asks.
  CHECK(code([](live::Asked& asked) { asked.fetch_site = {"same-origin"}; }) == 200);
  CHECK(code([](live::Asked& asked) { asked.fetch_site = {"none"}; }) == 200);
  for (const char* dest : {"", "empty", "image", "script", "iframe", "frame", "object"}) {
    CHECK(code([&](live::Asked& asked) {
            asked.fetch_site = {"cross-site"};
            asked.fetch_dest = {dest};
          }) == 403);
  }
  CHECK(code([](live::Asked& asked) { asked.fetch_site = {"cross-site"}; }) == 403);
  CHECK(code([](live::Asked& asked) { asked.fetch_site = {"same-site"}; }) == 403);
  // A link that opens the page for itself.
  CHECK(code([](live::Asked& asked) {
          asked.fetch_site = {"cross-site"};
          asked.fetch_dest = {"document"};
        }) == 200);
}

TEST_CASE("every answer tells the browser to keep it to itself") {
  const Open open;
  for (const std::string& path :
       {"/" + secret + "/", "/" + secret + "/events", "/" + secret + "/none", std::string("/")}) {
    const live::Answer answer = open.site.answer(good(path));
    CHECK(header(answer, "Cache-Control") == "no-store");
    CHECK(header(answer, "X-Content-Type-Options") == "nosniff");
    CHECK(header(answer, "Referrer-Policy") == "no-referrer");
    CHECK(header(answer, "Cross-Origin-Resource-Policy") == "same-origin");
    const std::string policy = header(answer, "Content-Security-Policy");
    CHECK(policy.find("default-src 'none'") == 0);
    CHECK(policy.find("frame-ancestors 'none'") != std::string::npos);
    CHECK(policy.find("unsafe") == std::string::npos);
    CHECK(header(answer, "Access-Control-Allow-Origin").empty());
  }
  // Each page has a number of its own that lets its script run; it stands nowhere else.
  const live::Answer one = open.site.answer(good("/" + secret + "/"));
  const live::Answer other = open.site.answer(good("/" + secret + "/"));
  CHECK(header(one, "Content-Security-Policy") != header(other, "Content-Security-Policy"));
  CHECK(one.body.find(secret) == std::string::npos);
}

TEST_CASE("keys are long, and no two are alike") {
  const auto one = live::random_key();
  const auto other = live::random_key();
  REQUIRE(one);
  REQUIRE(other);
  CHECK(one->size() == 32); // 128 bits
  CHECK(one->find_first_not_of("0123456789abcdef") == std::string::npos);
  CHECK(*one != *other);
}

} // namespace norma::test
