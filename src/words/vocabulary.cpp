#include "words/vocabulary.hpp"

#include <algorithm>
#include <array>
#include <map>

namespace norma::words {
namespace {

constexpr Clause held{"held", "held by (patient|assistant|operator)"};
constexpr std::string_view tooth_pattern =
    "[(facial|buccal|labial|occlusal|incisal|lingual|palatal)] @teeth";

// Clauses of the words below, each list named after its word.
constexpr std::array edition_clauses{Clause{"edition", "@count", true, false, true}};
constexpr std::array heading_clauses{Clause{"name", "@name [@text]", true, false, true}};
constexpr std::array view_clauses{
    Clause{"name", "@name [@text]", true, false, true}, Clause{"same", "same as @name"},
    Clause{"crossing", "for the (other side|lower jaw|upper jaw|other jaw)"}};
constexpr std::array series_clauses{
    Clause{"first", "@name = @name [(optional)]", true, false, true},
    Clause{"view", "@name [(optional)]", false, true}};
constexpr std::array revision_clauses{Clause{"number", "@count", true}};
constexpr std::array date_clauses{Clause{"date", "@date", true}};
constexpr std::array for_clauses{Clause{"group", "(adults|children)", true},
                                 Clause{"teeth", "(mixed teeth|milk teeth)"}};
constexpr std::array sensor_clauses{Clause{"size", "@size", true}};
constexpr std::array consent_clauses{
    Clause{"purpose", "(record|referral|teaching|insurance|publication)", true, true}};
constexpr std::array code_clauses{Clause{"code", "@code", true}};
constexpr std::array ratio_clauses{Clause{"ratio", "@ratio", true}};
constexpr std::array aperture_clauses{Clause{"range", "@f_number [to @f_number]", true}};
constexpr std::array iso_clauses{Clause{"speed", "@number", true}};
constexpr std::array shutter_clauses{Clause{"time", "@time", true}};
constexpr std::array exposure_clauses{Clause{"as", "as view @name"},
                                      Clause{"offset", "@stops (more|less)"}};
constexpr std::array blur_clauses{Clause{"blur", "@length on the sensor", true}};
constexpr std::array retractor_clauses{
    Clause{"absent", "none"},
    Clause{"mirror", "mirror takes its place"},
    Clause{"material", "(metal|plastic)"},
    Clause{"finish", "(polished|frosted|clear)"},
    Clause{"end", "(small end|large end)"},
    Clause{"tension", "tension (even|light|firm)"},
    Clause{"pull", "(outwards|outwards and back|outwards and up|outwards and down)"},
    held};
constexpr std::array mirror_clauses{
    Clause{"kind", "(occlusal|buccal right|buccal left|lingual right|lingual left)"},
    Clause{"disc", "disc @length"}, Clause{"opened", "opened @angle"}, held};
constexpr std::array insert_clauses{
    Clause{"how", "(teeth apart a little|teeth apart|mouth open)", true}};
constexpr std::array taken_clauses{Clause{"how", "(mirror)", true}};
constexpr std::array teeth_clauses{
    Clause{"relation", "(together|apart a little|apart|edge to edge)"},
    Clause{"bite", "(usual bite|centric relation)"}};
constexpr std::array mouth_clauses{Clause{"state", "(open wide|open|closed)"},
                                   Clause{"least", "open at least @length"}};
constexpr std::array head_clauses{
    Clause{"pose", "(upright|tipped back|tipped down|turned left|turned right)", true, true}};
constexpr std::array operator_clauses{
    Clause{"place", "(in front|behind the head|at the right|at the left)", true}};
constexpr std::array tongue_clauses{Clause{"pose", "(back|down|relaxed)"},
                                    Clause{"place", "(behind the mirror)"}};
constexpr std::array helper_clauses{Clause{"place", "(on the mirror)", true}, held};
constexpr std::array camera_clauses{
    Clause{"ahead", "straight ahead"}, Clause{"side", "from (right|left)"},
    Clause{"azimuth", "@angle from midline"}, Clause{"height", "@angle from (above|below)"},
    Clause{"roll", "upside down"}};
constexpr std::array aim_clauses{Clause{"tooth", "@tooth"},
                                 Clause{"between", "between @tooth and @tooth"}};
constexpr std::array lamp_clauses{Clause{"kind", "(ring|point)"},
                                  Clause{"towards", "towards the (front teeth|cheek)"}};
constexpr std::array show_clauses{Clause{"teeth", tooth_pattern, true, true}};
constexpr std::array not_show_clauses{
    Clause{"what", "(fingers|lips|cheeks|retractors|mirror edge|tongue|nose)", true, true}};
constexpr std::array turned_clauses{Clause{"most", "at most @angle", true}};
constexpr std::array picture_clauses{
    Clause{"direct", "as seen directly"},
    Clause{"towards", "(front teeth|back teeth|biting edges) at the (top|bottom|left|right)"},
    Clause{"mirrored", "stays mirrored"}, Clause{"marked", "marked @text"}};
constexpr std::array reason_clauses{Clause{"how", "write the reason", true}};
constexpr std::array text_clauses{Clause{"text", "@text", true}};

constexpr unsigned view_or_every = in_every | in_view;
using R = Repeat;
using C = Crossing;
using E = Effect;

// name, places, repeat, key, clauses, other side, other jaw, effect, level, edition, synonyms,
// help, example
constexpr std::array table{
    // A file and its protocol
    Word{"norma", in_file, R::once, "", edition_clauses, C::keeps, C::keeps, E::text, 1, 1, "",
         "edition of the language; the first line of every file", "norma 1"},
    Word{"protocol", in_file, R::list, "", heading_clauses, C::keeps, C::keeps, E::record, 1, 1, "",
         "a protocol: its name, its title, and a block with all that belongs to it",
         "protocol harbour_five \"Five-view record\" { }"},
    Word{"revision", in_protocol, R::once, "", revision_clauses, C::keeps, C::keeps, E::record, 0,
         1, "version", "number of this edition of the protocol; counts up", "revision 3"},
    Word{"adopted", in_protocol, R::once, "", date_clauses, C::keeps, C::keeps, E::record, 0, 1,
         "date, since", "day from which the protocol holds", "adopted 2026-09-01"},
    Word{"review by", in_protocol, R::once, "", date_clauses, C::keeps, C::keeps, E::record, 0, 1,
         "expires", "day by which somebody looks at the protocol again", "review by 2027-09-01"},
    Word{"for", in_protocol, R::once, "", for_clauses, C::keeps, C::keeps, E::framing, 0, 1,
         "patients, group", "whom the protocol is for", "for children, mixed teeth"},
    Word{"sensor", in_protocol, R::once, "", sensor_clauses, C::keeps, C::keeps, E::scale, 0, 1,
         "format", "the sensor that the ratios are meant for, width by height",
         "sensor 36 x 24 mm"},
    Word{"consent for", in_protocol, R::once, "", consent_clauses, C::keeps, C::keeps, E::record, 0,
         1, "consent", "what the pictures may be used for, if the patient agrees",
         "consent for record, teaching"},
    Word{"every mouth view",
         in_protocol,
         R::once,
         "",
         {},
         C::keeps,
         C::keeps,
         E::handling,
         2,
         1,
         "",
         "what holds for all views of the mouth, unless the view says otherwise",
         "every mouth view { }"},
    Word{"view", in_protocol, R::list, "", view_clauses, C::keeps, C::keeps, E::framing, 2, 1,
         "picture, shot", "one view of the mouth: name, title, perhaps the view it is made from",
         "view left \"Left side\", same as right, for the other side { }"},
    Word{"series", in_protocol, R::list, "", series_clauses, C::keeps, C::keeps, E::record, 2, 1,
         "set, record", "views in the order in which they are taken",
         "series record = front, upper, lower optional"},

    // What the view is
    Word{"code", in_view, R::once, "", code_clauses, C::maps, C::stays, E::record, 0, 1, "",
         "code of the view in the standard's table", "code IV07"},

    // Scale, light and sharpness
    Word{"ratio", view_or_every, R::once, "", ratio_clauses, C::keeps, C::keeps, E::scale, 0, 1,
         "magnification, scale, reproduction", "size on the sensor to size of the subject",
         "ratio 1:2"},
    Word{"aperture", view_or_every, R::once, "", aperture_clauses, C::keeps, C::keeps, E::sharpness,
         0, 1, "diaphragm, stop", "the aperture, or the range norma may choose from",
         "aperture f/22 to f/32"},
    Word{"iso", view_or_every, R::once, "", iso_clauses, C::keeps, C::keeps, E::light, 0, 1,
         "sensitivity, asa", "speed of the sensor", "iso 200"},
    Word{"shutter", view_or_every, R::once, "", shutter_clauses, C::keeps, C::keeps, E::light, 0, 1,
         "speed", "exposure time", "shutter 1/125 s"},
    Word{"exposure", view_or_every, R::once, "", exposure_clauses, C::keeps, C::keeps, E::light, 0,
         1, "brightness", "as bright as another view; norma works out the offset, or it is given",
         "exposure as view front"},
    Word{"lamp", view_or_every, R::once, "", lamp_clauses, C::maps, C::keeps, E::light, 0, 1,
         "flash, light", "which lamp, and which way one with a side points",
         "lamp point, towards the front teeth"},
    Word{"allowed blur", view_or_every, R::once, "", blur_clauses, C::keeps, C::keeps, E::sharpness,
         0, 1, "blur", "how wide a blurred point may be on the sensor",
         "allowed blur 0.030 mm on the sensor"},

    // People and instruments
    Word{"retractor", view_or_every, R::keyed, "both|left|right", retractor_clauses, C::maps,
         C::maps, E::handling, 0, 1, "retractors", "retractor on one side of the mouth, or on both",
         "retractor right tension firm, outwards and back, held by assistant"},
    Word{"mirror", view_or_every, R::once, "", mirror_clauses, C::maps, C::keeps, E::framing, 0, 1,
         "", "the mirror the picture is taken in, and who holds it",
         "mirror occlusal, held by assistant"},
    Word{"insert with", view_or_every, R::once, "", insert_clauses, C::keeps, C::keeps, E::handling,
         0, 1, "insert", "how the mouth is while mirror and retractors go in",
         "insert with teeth apart a little"},
    Word{"taken in", view_or_every, R::once, "", taken_clauses, C::keeps, C::keeps, E::orientation,
         0, 1, "", "the picture is the mirror's image, not a direct one", "taken in mirror"},
    Word{"teeth", view_or_every, R::once, "", teeth_clauses, C::keeps, C::keeps, E::framing, 0, 1,
         "bite", "how upper and lower teeth stand to each other", "teeth together, usual bite"},
    Word{"mouth", view_or_every, R::once, "", mouth_clauses, C::keeps, C::keeps, E::framing, 0, 1,
         "opening", "how far the mouth is open", "mouth open wide"},
    Word{"head", view_or_every, R::once, "", head_clauses, C::maps, C::keeps, E::handling, 0, 1, "",
         "how the patient holds the head", "head tipped back"},
    Word{"operator", view_or_every, R::once, "", operator_clauses, C::maps, C::keeps,
         E::orientation, 0, 1, "photographer", "where the operator stands",
         "operator behind the head"},
    Word{"tongue", view_or_every, R::once, "", tongue_clauses, C::keeps, C::stays, E::framing, 0, 1,
         "", "where the tongue goes", "tongue back, behind the mirror"},
    Word{"air", view_or_every, R::once, "", helper_clauses, C::keeps, C::keeps, E::handling, 0, 1,
         "blow, air syringe", "air against fogging, and who holds it",
         "air on the mirror, held by assistant"},
    Word{"say", view_or_every, R::list, "", text_clauses, C::keeps, C::keeps, E::handling, 0, 1,
         "prompt, tell", "what is said to the patient", "say \"Teeth together, please.\""},
    Word{"caution", view_or_every, R::list, "", text_clauses, C::keeps, C::keeps, E::handling, 0, 1,
         "warning, note", "what to look out for in this view",
         "caution \"The lower lip is sore today.\""},

    // Camera and frame
    Word{"camera", view_or_every, R::once, "", camera_clauses, C::maps, C::maps, E::framing, 0, 1,
         "angle, position", "where the camera looks from",
         "camera from right, 60 deg from midline"},
    Word{"centre on", view_or_every, R::once, "", aim_clauses, C::maps, C::maps, E::framing, 0, 1,
         "center on, centre, center, aim", "what lies in the middle of the picture",
         "centre on between 11 and 21"},
    Word{"focus on", view_or_every, R::once, "", aim_clauses, C::maps, C::maps, E::sharpness, 0, 1,
         "focus", "the tooth the lens is focused on", "focus on 12"},
    Word{"must show", view_or_every, R::once, "", show_clauses, C::maps, C::maps, E::framing, 0, 1,
         "shows, show", "surfaces and teeth that are in the picture whole",
         "must show facial 15 to 25, 45 to 35"},
    Word{"or else show", view_or_every, R::once, "", show_clauses, C::maps, C::maps, E::framing, 0,
         1, "", "what is shown at least, where the mouth does not allow more",
         "or else show occlusal 16 to 26"},
    Word{"may cut", view_or_every, R::once, "", show_clauses, C::maps, C::maps, E::framing, 0, 1,
         "", "teeth that need not be in the picture whole", "may cut lingual 13, 23"},
    Word{"must not show", view_or_every, R::once, "", not_show_clauses, C::keeps, C::keeps,
         E::framing, 0, 1, "hide", "what must stay out of the picture", "must not show fingers"},
    Word{"must be sharp", view_or_every, R::once, "", show_clauses, C::maps, C::maps, E::sharpness,
         0, 1, "sharp", "surfaces and teeth that are sharp from edge to edge",
         "must be sharp facial 12 to 22"},
    Word{"turned away", view_or_every, R::once, "", turned_clauses, C::keeps, C::keeps, E::framing,
         0, 1, "", "how far a shown surface may be turned from the camera",
         "turned away at most 45 deg"},
    Word{"picture", view_or_every, R::once, "", picture_clauses, C::maps, C::stays, E::orientation,
         0, 1, "image", "the wanted picture: as seen directly, or as the mirror gave it, marked",
         "picture as seen directly, front teeth at the top"},
    Word{"if not possible", view_or_every, R::once, "", reason_clauses, C::keeps, C::keeps,
         E::record, 0, 1, "", "what is done when the view cannot be taken",
         "if not possible write the reason"},
};

constexpr std::pair<std::string_view, std::string_view> sides[] = {{"left", "right"}};
constexpr std::pair<std::string_view, std::string_view> jaws[] = {
    {"upper", "lower"}, {"up", "down"}, {"above", "below"}, {"top", "bottom"}};

template <std::size_t N>
std::string changed_over(std::string_view symbol,
                         const std::pair<std::string_view, std::string_view> (&pairs)[N]) {
  std::string out;
  std::size_t at = 0;
  while (at <= symbol.size()) {
    const std::size_t stop = std::min(symbol.find(' ', at), symbol.size());
    std::string_view piece = symbol.substr(at, stop - at);
    for (const auto& [a, b] : pairs) {
      if (piece == a) {
        piece = b;
      } else if (piece == b) {
        piece = a;
      }
    }
    if (at > 0) out += ' ';
    out += piece;
    at = stop + 1;
  }
  return out;
}

std::vector<std::string> split(std::string_view s, char by) {
  std::vector<std::string> out;
  std::size_t at = 0;
  while (at < s.size()) {
    const std::size_t stop = std::min(s.find(by, at), s.size());
    if (stop > at) out.emplace_back(s.substr(at, stop - at));
    at = stop + 1;
  }
  return out;
}

} // namespace

std::span<const Word> vocabulary() { return table; }

const Word* find_word(std::string_view name, unsigned place) {
  const auto* found = std::find_if(table.begin(), table.end(), [&](const Word& w) {
    return w.name == name && (w.places & place) != 0;
  });
  return found == table.end() ? nullptr : found;
}

int structure_level(std::string_view first_word) {
  for (const Word& w : table) {
    if (w.level > 0 && w.name.starts_with(first_word) &&
        (w.name.size() == first_word.size() || w.name[first_word.size()] == ' ')) {
      return w.level;
    }
  }
  return 0;
}

std::span<const CompiledWord> compiled_vocabulary() {
  static const std::vector<CompiledWord> compiled = [] {
    std::vector<CompiledWord> out;
    for (const Word& word : table) {
      CompiledWord c{&word, split(word.name, ' '), {}, split(word.key, '|')};
      for (const Clause& clause : word.clauses)
        c.patterns.emplace_back(clause.pattern);
      out.push_back(std::move(c));
    }
    return out;
  }();
  return compiled;
}

std::vector<std::string> all_words() {
  std::vector<std::string> out;
  for (const CompiledWord& c : compiled_vocabulary()) {
    out.insert(out.end(), c.parts.begin(), c.parts.end());
    out.insert(out.end(), c.keys.begin(), c.keys.end());
    for (const Pattern& pattern : c.patterns) {
      const std::vector<std::string> words = pattern.words();
      out.insert(out.end(), words.begin(), words.end());
    }
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::string other_side(std::string_view symbol) { return changed_over(symbol, sides); }
std::string other_jaw(std::string_view symbol) { return changed_over(symbol, jaws); }

} // namespace norma::words
