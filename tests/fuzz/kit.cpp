// Bytes as a kit file, held against a small protocol.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "session/session.hpp"

namespace {

constexpr const char* protocol = R"(norma 1
protocol fuzz "Fuzz" {
  for adults
  sensor 36 x 24 mm
  view right "Right" {
    ratio 1:2
    aperture f/22 to f/32
    iso 200
    camera from right, 60 deg from midline
    retractor both tension firm, held by patient
    must show facial 12 to 17
    must be sharp facial 13 to 16
  }
  view upper "Upper" {
    ratio 1:2
    aperture f/22
    iso 200
    exposure as view right
    mirror occlusal, held by assistant
    photographed in a mirror
    must show occlusal 17 to 27
    picture as seen directly, front teeth at the top
  }
}
)";

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace norma;
  text::MemoryFiles files;
  files.put("fuzz.norma", protocol);
  files.put("fuzz.yaml", std::string(reinterpret_cast<const char*>(data), size));
  session::Session session;
  if (session.run(files, {{"fuzz.norma"}, {"fuzz.yaml"}, {2026, 11, 25}})) std::abort();
  for (const char c : emit::findings_text(session.report(), wording::english())) {
    if (static_cast<unsigned char>(c) < 0x20 && c != '\n') std::abort();
  }
  if (emit::findings_json(session.report()).empty()) {
    std::abort();
  }
  return 0;
}
