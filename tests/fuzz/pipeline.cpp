// Fuzzer of the whole way: a protocol and a kit, from bytes to all that norma prints. The input
// holds both, parted by a line `--- kit ---`.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "emit/findings_json.hpp"
#include "emit/sarif.hpp"
#include "emit/findings_text.hpp"
#include "emit/chairs.hpp"
#include "emit/checklist.hpp"
#include "emit/explain_view.hpp"
#include "emit/kit_words.hpp"
#include "emit/plan_json.hpp"
#include "emit/view_picture.hpp"
#include "session/session.hpp"
#include "text/files.hpp"
#include "text/utf8.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

void demand(bool holds) {
  if (!holds) __builtin_trap();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace norma;
  const std::string_view input(reinterpret_cast<const char*>(data), size);
  constexpr std::string_view border = "\n--- kit ---\n";
  const std::size_t at = input.find(border);
  text::MemoryFiles files;
  files.put("p.norma", std::string(input.substr(0, at)));
  session::Request request{{"p.norma"}, {}, {2026, 11, 25}};
  request.threads = 1;
  request.fingerprints = true;
  // Rays take most of the time: one input in sixteen is looked at in three dimensions.
  request.scene = size % 16 == 0;
  if (at != std::string_view::npos) {
    files.put("k.yaml", std::string(input.substr(at + border.size())));
    request.kits = {"k.yaml"};
  }
  session::Session session;
  session.run(files, request);

  // Whatever comes in, what goes out is text that a terminal does not act on.
  const auto sound = [](const std::string& out) { demand(!text::first_unsound_byte(out)); };
  sound(emit::findings_json(session.report()));
  sound(emit::findings_sarif(session.report()));
  sound(emit::findings_text(session.report()));
  sound(emit::findings_lines(session.report()));
  for (const report::Held& r : session.report().held) {
    sound(emit::as_text(emit::checklist(session.report(), r, "")));
    sound(emit::as_markdown(emit::checklist(session.report(), r, "")));
    sound(emit::chairs(session.report(), {&r}));
    for (const plan::ViewPlan& v : r.plan.views) {
      sound(emit::explain_view(v));
      sound(emit::view_picture(v));
      // A fact that has a value has a number that can be printed.
      for (const plan::Fact& f : v.facts.all())
        demand(f.state != plan::State::value || (f.value && f.number().value_or(0) - f.number().value_or(0) == 0));
    }
  }
  sound(emit::plan_json(session.report()));
  for (const report::Kit& kit : session.report().kits)
    sound(emit::as_text(emit::kit_words(*kit.kit, request.on)));
  return 0;
}
