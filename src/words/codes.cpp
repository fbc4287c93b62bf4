#include "words/codes.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace norma::words {
namespace {

using enum MirrorState;

// IV24 stands here as the draft prints it. Its R\A is not the mirror image of its own corrected
// view: see tests/reference/orientation. norma works orientations out and does not copy them.
constexpr std::array<ViewCode, 73> table{{
    {"IV01", "IO.RB.CO.NM", none, "A", "F", "399198007"},
    {"IV02", "IO.RB.CO.WM", uncorrected, "P", "F", "399198007"},
    {"IV03", "IO.RB.CO.WM.BC", corrected, "A", "F", "399198007"},
    {"IV04", "IO.RB.CR.NM", none, "A", "F", "399198007"},
    {"IV05", "IO.RB.CR.WM", uncorrected, "P", "F", "399198007"},
    {"IV06", "IO.RB.CR.WM.BC", corrected, "A", "F", "399198007"},
    {"IV07", "IO.FV.CO.NM", none, "L", "F", "399033003"},
    {"IV08", "IO.FV.CR.NM", none, "L", "F", "399033003"},
    {"IV09", "IO.FV.TA.NM", none, "L", "F", "399033003"},
    {"IV10", "IO.FV.MO.NM", none, "L", "F", "399033003"},
    {"IV11", "IO.FV.IV.CO.NM", none, "L", "F", "399033003"},
    {"IV12", "IO.FV.IV.CR.NM", none, "L", "F", "399033003"},
    {"IV13", "IO.FV.TT.NM", none, "L", "F", "399033003"},
    {"IV14", "IO.RL.CO.OJ.NM", none, "A", "F", "399198007"},
    {"IV15", "IO.RL.CR.OJ.NM", none, "A", "F", "399198007"},
    {"IV16", "IO.LL.CO.OJ.NM", none, "P", "F", "399173006"},
    {"IV17", "IO.LL.CR.OJ.NM", none, "P", "F", "399173006"},
    {"IV18", "IO.LB.CO.NM", none, "P", "F", "399173006"},
    {"IV19", "IO.LB.CO.WM", uncorrected, "A", "F", "399173006"},
    {"IV20", "IO.LB.CO.WM.BC", corrected, "P", "F", "399173006"},
    {"IV21", "IO.LB.CR.NM", none, "P", "F", "399173006"},
    {"IV22", "IO.LB.CR.WM", uncorrected, "A", "F", "399173006"},
    {"IV23", "IO.LB.CR.WM.BC", corrected, "P", "F", "399173006"},
    {"IV24", "IO.MX.MO.OV.WM", uncorrected, "R", "A", "260499007"},
    {"IV25", "IO.MX.MO.OV.WM.BC", corrected, "L", "P", "260499007"},
    {"IV26", "IO.MD.MO.OV.WM", uncorrected, "L", "P", "260499007"},
    {"IV27", "IO.MD.MO.OV.WM.BC", corrected, "L", "A", "260499007"},
    {"IV28", "IO.GR.[tooth]", none, "", "", ""},
    {"IV29", "IO.FR.[tooth]", none, "L", "F", ""},
    {"IV30", "IO.[modifier].PA", none, "", "", ""},
    {"EV01", "EO.RP.LR.CO", none, "A", "F", "399198007"},
    {"EV02", "EO.RP.LR.CR", none, "A", "F", "399198007"},
    {"EV03", "EO.RP.LC.CO", none, "A", "F", "399198007"},
    {"EV04", "EO.RP.LC.CR", none, "A", "F", "399198007"},
    {"EV05", "EO.RP.FS.CO", none, "A", "F", "399198007"},
    {"EV06", "EO.RP.FS.CR", none, "A", "F", "399198007"},
    {"EV07", "EO.RP.MD.PF", none, "A", "F", "399198007"},
    {"EV08", "EO.RP.LR.CO.45", none, "A", "F", "260454004"},
    {"EV09", "EO.RP.LR.CR.45", none, "A", "F", "260454004"},
    {"EV10", "EO.RP.LC.CO.45", none, "A", "F", "260454004"},
    {"EV11", "EO.RP.LC.CR.45", none, "A", "F", "260454004"},
    {"EV12", "EO.RP.FS.CO.45", none, "A", "F", "260454004"},
    {"EV13", "EO.RP.FS.CR.45", none, "A", "F", "260454004"},
    {"EV14", "EO.RP.MD.PF.45", none, "A", "F", "260454004"},
    {"EV15", "EO.FF.LR.CO", none, "L", "F", "399033003"},
    {"EV16", "EO.FF.LR.CR", none, "L", "F", "399033003"},
    {"EV17", "EO.FF.LC.CO", none, "L", "F", "399033003"},
    {"EV18", "EO.FF.LC.CR", none, "L", "F", "399033003"},
    {"EV19", "EO.FF.FS.CO", none, "L", "F", "399033003"},
    {"EV20", "EO.FF.FS.CR", none, "L", "F", "399033003"},
    {"EV21", "EO.FF.MD.PF", none, "L", "F", "399033003"},
    {"EV22", "EO.LP.LR.CO", none, "P", "F", "399173006"},
    {"EV23", "EO.LP.LR.CR", none, "P", "F", "399173006"},
    {"EV24", "EO.LP.LC.CO", none, "P", "F", "399173006"},
    {"EV25", "EO.LP.LC.CR", none, "P", "F", "399173006"},
    {"EV26", "EO.LP.FS.CO", none, "P", "F", "399173006"},
    {"EV27", "EO.LP.FS.CR", none, "P", "F", "399173006"},
    {"EV28", "EO.LP.MD.PF", none, "P", "F", "399173006"},
    {"EV29", "EO.LP.LR.CO.45", none, "P", "F", "260454004"},
    {"EV30", "EO.LP.LR.CR.45", none, "P", "F", "260454004"},
    {"EV31", "EO.LP.LC.CO.45", none, "P", "F", "260454004"},
    {"EV32", "EO.LP.LC.CR.45", none, "P", "F", "260454004"},
    {"EV33", "EO.LP.FS.CO.45", none, "P", "F", "260454004"},
    {"EV34", "EO.LP.FS.CR.45", none, "P", "F", "260454004"},
    {"EV35", "EO.LP.MD.PF.45", none, "P", "F", "260454004"},
    {"EV36", "EO.OF.IV", none, "L", "F", "399255003"},
    {"EV37", "EO.OF.SV", none, "L", "F", "260461000"},
    {"EV38", "EO.OF.CS", none, "L", "F", "399033003"},
    {"EV39", "EO.OF.OC", none, "L", "F", "399033003"},
    {"EV40", "EO.OF.FI", none, "L", "F", ""},
    {"EV41", "EO.OF.AN", none, "P", "F", "399173006"},
    {"EV42", "EO.FF.MO", none, "L", "F", "399033003"},
    {"EV43", "EO.FF.NW", none, "L", "F", "399033003"},
}};

std::string replaced(std::string_view term, std::string_view part, std::string_view by) {
  std::string out;
  std::size_t at = 0;
  while (at <= term.size()) {
    const std::size_t dot = std::min(term.find('.', at), term.size());
    const std::string_view piece = term.substr(at, dot - at);
    if (at > 0) out += '.';
    out += piece == part ? by : piece;
    at = dot + 1;
  }
  return out;
}

const ViewCode* find_term(std::string_view term) {
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const ViewCode& c) { return c.term == term; });
  return found == table.end() ? nullptr : &*found;
}

} // namespace

bool ViewCode::has_part(std::string_view part) const { return replaced(term, part, "") != term; }

std::span<const ViewCode> view_codes() { return table; }

const ViewCode* find_code(std::string_view code) {
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const ViewCode& c) { return c.code == code; });
  return found == table.end() ? nullptr : &*found;
}

const ViewCode* other_side(const ViewCode& code) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 3> sides{
      {{"RB", "LB"}, {"RL", "LL"}, {"RP", "LP"}}};
  for (const auto& [right, left] : sides) {
    if (code.has_part(right)) return find_term(replaced(code.term, right, left));
    if (code.has_part(left)) return find_term(replaced(code.term, left, right));
  }
  return &code;
}

const ViewCode* in_state(const ViewCode& code, MirrorState state) {
  // Terms end in NM (no mirror), WM (by mirror, as shot) or WM.BC (by mirror, corrected).
  std::string stem(code.term);
  for (const std::string_view ending : {".NM", ".WM.BC", ".WM"}) {
    if (!stem.ends_with(ending)) continue;
    stem.resize(stem.size() - ending.size());
    switch (state) {
    case none: return find_term(stem + ".NM");
    case uncorrected: return find_term(stem + ".WM");
    case corrected: return find_term(stem + ".WM.BC");
    }
  }
  return nullptr;
}

} // namespace norma::words
