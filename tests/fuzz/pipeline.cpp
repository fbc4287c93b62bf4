// Fuzzer of the whole way: a protocol and a kit, from bytes to all that norma prints. The input
// holds both, parted by a line `--- kit ---`.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "emit/card_pages.hpp"
#include "emit/chairs.hpp"
#include "emit/checklist.hpp"
#include "emit/explain_view.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/hosts.hpp"
#include "emit/kit_words.hpp"
#include "emit/plan_json.hpp"
#include "emit/sarif.hpp"
#include "emit/view_picture.hpp"
#include "session/session.hpp"
#include "text/files.hpp"
#include "text/utf8.hpp"
#include "workspace/workspace.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

void demand(bool holds) {
  if (!holds) __builtin_trap();
}

using namespace norma;

std::string told(const report::Report& report) {
  return emit::findings_json(report) + emit::plan_json(report, wording::english());
}

/// One workspace sees every input as the next edit of the same two files: what it says is what a
/// fresh session says of them.
std::string told_after_edit(const std::string& protocol, const session::Request& request,
                            const std::string& kit) {
  static workspace::Workspace space(std::make_shared<text::MemoryFiles>());
  space.edit("p.norma", protocol);
  if (!request.kits.empty()) space.edit("k.yaml", kit);
  const workspace::Snapshot files = space.snapshot();
  auto kits = files.kits(request.kits);
  demand(std::holds_alternative<workspace::Kits>(kits));
  const workspace::Ask ask = session::ask_of(request, std::get<workspace::Kits>(kits));
  const auto answer = files.report(request.protocols, ask);
  demand(std::holds_alternative<report::Report>(answer));
  return told(std::get<report::Report>(answer));
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input(reinterpret_cast<const char*>(data), size);
  constexpr std::string_view border = "\n--- kit ---\n";
  const std::size_t at = input.find(border);
  const std::string protocol(input.substr(0, at));
  const std::string kit_text(at == std::string_view::npos ? "" : input.substr(at + border.size()));
  text::MemoryFiles files;
  files.put("p.norma", protocol);
  session::Request request{{"p.norma"}, {}, {2026, 11, 25}};
  request.threads = 1;
  request.fingerprints = true;
  // Rays take most of the time: one input in sixteen is looked at in three dimensions.
  request.scene = size % 16 == 0;
  if (at != std::string_view::npos) {
    files.put("k.yaml", kit_text);
    request.kits = {"k.yaml"};
  }
  session::Session session;
  demand(!session.run(files, request));
  const std::string now = told(session.report());
  demand(told_after_edit(protocol, request, kit_text) == now);
  if (size % 8 == 0) { // cut short, and whole again
    static_cast<void>(told_after_edit(protocol.substr(0, protocol.size() / 2), request, kit_text));
    demand(told_after_edit(protocol, request, kit_text) == now);
  }

  // Whatever comes in, what goes out is text that a terminal does not act on.
  const auto sound = [](const std::string& out) { demand(!text::first_unsound_byte(out)); };
  sound(emit::findings_json(session.report()));
  sound(emit::findings_sarif(session.report(), [](std::string_view) { return ""; }));
  sound(emit::findings_github(session.report()));
  sound(emit::findings_gitlab(session.report()));
  sound(emit::findings_junit(session.report(), diag::Severity::advice));
  sound(emit::findings_text(session.report(), wording::english()));
  sound(emit::findings_lines(session.report(), wording::english()));
  for (const report::Held& r : session.report().held) {
    sound(emit::as_text(emit::checklist(session.report(), r, "", wording::english())));
    sound(emit::as_markdown(emit::checklist(session.report(), r, "", wording::english())));
    sound(emit::chairs(session.report(), {&r}, wording::english()));
    const emit::Cards cards = emit::cards_of(session.report(), r, "", wording::english());
    sound(emit::cards_html({cards}, wording::english()));
    for (const drawing::PaperPage& page :
         emit::cards_on_paper({cards}, emit::a4, wording::english()).pages) {
      for (const drawing::TextBox& box : page.boxes)
        demand(box.width > 0 && box.height > 0);
    }
    for (const plan::ViewPlan& v : r.plan.views) {
      sound(emit::explain_view(v, wording::english()));
      sound(emit::view_picture(v, wording::english()));
      // A fact that has a value has a number that can be printed.
      for (const plan::Fact& f : v.facts.all())
        demand(f.state != plan::State::value ||
               (f.value && f.number().value_or(0) - f.number().value_or(0) == 0));
    }
  }
  sound(emit::plan_json(session.report(), wording::english()));
  for (const report::Kit& kit : session.report().kits)
    sound(emit::as_text(emit::kit_words(*kit.kit, request.on, wording::english())));
  return 0;
}
