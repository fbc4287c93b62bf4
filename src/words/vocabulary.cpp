#include "words/vocabulary.hpp"

#include <algorithm>
#include <array>

#include "words/row.hpp"

namespace norma::words {
namespace {

// Clauses ----------------------------------------------------------------------------------------

/// Of a clause that is no more than work at the chair.
constexpr Clause work(Clause clause) { return with_effect(Effect::handling, clause); }

constexpr Clause held = work({"held", "held by (patient|assistant|operator)"});
constexpr Clause no_hand = work({"held", "(needs no hand)"}); // said in place of who holds it

// Clauses of the words below, each list named after its word.
constexpr std::array edition_clauses{Clause{"edition", "@count", true, false, true}};
constexpr std::array heading_clauses{Clause{"name", "@name [@text]", true, false, true}};
constexpr std::array builds_clauses{
    Clause{"base", "@name from @text [as of @text]", true, false, true}};
constexpr std::array view_clauses{
    Clause{"name", "@name [@text]", true, false, true}, Clause{"same", "same as @name"},
    Clause{"crossing", "for the (other side|lower jaw|upper jaw|other jaw)"}};
constexpr std::array series_clauses{
    Clause{"first", "@name = @name [(optional)]", true, false, true},
    Clause{"view", "@name [(optional)]", false, true},
    with_effect(Effect::record, {"laid out", "laid out @name"}),
    with_effect(Effect::record, {"next row", "next row @name", false, true})};
constexpr std::array edit_view_clauses{Clause{"name", "@name because @text", true, false, true}};
constexpr std::array accept_clauses{Clause{
    "what", "@name [in [(series)] @name] [(with) @name] [(with) @text] [until @date] because @text",
    true, false, true}};
constexpr std::array revision_clauses{Clause{"number", "@count", true}};
constexpr std::array date_clauses{Clause{"date", "@date", true}};
constexpr std::array for_clauses{Clause{"group", "(adults|children)", true},
                                 Clause{"teeth", "(mixed teeth|milk teeth)"}};
constexpr std::array missing_clauses{Clause{"teeth", "@teeth", true, true}};
constexpr std::array sensor_clauses{Clause{"size", "@size", true}};
constexpr std::array consent_clauses{
    Clause{"purpose", "(record|referral|teaching|insurance|publication)", true, true}};
constexpr std::array assistant_clauses{Clause{"hands", "(none)", true}};
constexpr std::array originals_clauses{Clause{"how", "(kept unaltered)", true}};
constexpr std::array crops_clauses{Clause{"how", "(noted|none)", true}};
constexpr std::array file_names_clauses{
    Clause{"how", "(without name of the patient|by record number)", true, true}};
constexpr std::array others_keep_clauses{Clause{"word", "@word", true, true}};
constexpr std::array code_clauses{Clause{"code", "@code", true}};
constexpr std::array chairside_clauses{Clause{"how", "(named at the chair)", true}};
constexpr std::array tooth_clauses{Clause{"how", "(named at the chair)", true},
                                   Clause{"which", "@teeth", false, true}};
constexpr std::array ratio_clauses{Clause{"ratio", "@ratio"},
                                   Clause{"ratio", "for a field @length (wide|high)"},
                                   Clause{"of camera", "(set by the camera)"}};
constexpr std::array aperture_clauses{Clause{"range", "@f_number [to @f_number]", true}};
constexpr std::array iso_clauses{Clause{"speed", "@number", true}};
constexpr std::array shutter_clauses{Clause{"time", "@time", true}};
constexpr std::array exposure_clauses{Clause{"as", "as view @name"},
                                      Clause{"offset", "@stops (more|less)"}};
// Another way to say the same stands right behind the first one: one of the two is said.
constexpr std::array white_balance_clauses{Clause{"set to", "@temperature", true},
                                           Clause{"set to", "(flash|daylight|from a grey card)"}};
constexpr std::array grey_card_clauses{
    Clause{"when", "(before the first view|after the last view)", true}, held, no_hand};
constexpr std::array file_format_clauses{Clause{"what", "(raw and JPEG|raw|JPEG)", true}};
constexpr std::array same_clauses{
    Clause{"what", "(settings|tooth|site|head position) as last visit", true}};
constexpr std::array blur_clauses{Clause{"blur", "@length on the sensor", true}};
constexpr std::array tolerance_clauses{Clause{"angle", "@angle of the camera"},
                                       Clause{"distance", "@length of distance"}};
constexpr std::array lamp_clauses{Clause{"kind", "(ring|point|clip on|built into the lens|twin)"},
                                  Clause{"look", "(modelling light|even light)"},
                                  Clause{"towards", "towards the (front teeth|cheek|nose)"}};
constexpr std::array background_clauses{Clause{"look", "(plain|white|grey|black|blue)"},
                                        Clause{"behind", "at least @length behind the head"}};
constexpr std::array retractor_clauses{
    Clause{"absent", "none"},
    Clause{"mirror", "mirror takes its place"},
    Clause{"fingers", "by fingers"}, // no instrument
    work({"material", "(metal|plastic)"}),
    work({"finish", "(polished|frosted|clear)"}),
    work({"end", "(small end|large end)"}),
    Clause{"tension", "tension (even|light|firm)"},
    Clause{"pull", "(outwards|outwards and back|outwards and up|outwards and down)"},
    work({"moisture", "(wetted|dry)"}),
    held,
    no_hand};
constexpr std::array mirror_clauses{
    Clause{"kind", "(occlusal|buccal right|buccal left|lingual right|lingual left)"},
    Clause{"disc", "disc @length"},
    Clause{"end", "(small end|large end)"},
    work({"again", "(same one turned over)"}),
    Clause{"opened", "opened @angle"},
    work({"warmed", "(warmed)"}),
    held,
    no_hand};
constexpr std::array paddle_clauses{
    Clause{"place", "behind the (upper front teeth|lower front teeth|front teeth)", true},
    Clause{"colour", "(black|grey)"}, held, no_hand};
constexpr std::array insert_clauses{
    Clause{"how", "(teeth apart a little|teeth apart|mouth open)", true}};
constexpr std::array take_out_clauses{Clause{"what", "(mirror|retractors|frame|guide)", true}};
constexpr std::array photographed_clauses{Clause{"how", "(in a mirror)", true}};
constexpr std::array frame_clauses{Clause{"size", "@size", true},
                                   Clause{"how", "(fixed to the lens)"}};
constexpr std::array guide_clauses{Clause{"how", "(resting on the chin|off)", true}};
constexpr std::array tab_clauses{
    Clause{"place", "(beside that tooth|edge to edge with that tooth|beside the teeth)", true},
    Clause{"plane", "(in its plane)"}, held, no_hand};
constexpr std::array ruler_clauses{Clause{"place", "(beside that site|beside that tooth)", true},
                                   Clause{"plane", "(in its plane)"}, held, no_hand};
constexpr std::array drying_clauses{Clause{"when", "(before drying|after drying)", true}};
constexpr std::array teeth_clauses{
    Clause{"relation", "(together|apart a little|apart|edge to edge)"},
    Clause{"bite", "(usual bite|centric relation)"}};
constexpr std::array dentures_clauses{Clause{"place", "(in|out)", true}};
constexpr std::array mouth_clauses{Clause{"state", "(open wide|open|closed)"},
                                   Clause{"least", "open at least @length"}};
constexpr std::array lips_clauses{Clause{"pose", "(relaxed|closed|smiling)", true}};
constexpr std::array head_clauses{
    Clause{"pose", "(upright|in natural position|tipped back|tipped down|turned left|turned right)",
           true, true}};
constexpr std::array operator_clauses{
    Clause{"place", "(in front|behind the head|at the right|at the left)", true}};
constexpr std::array tongue_clauses{Clause{"pose", "(back|down|up|relaxed)"},
                                    Clause{"place", "(behind the mirror)"}};
constexpr std::array air_clauses{Clause{"place", "(on the mirror|on the teeth)", true}, held,
                                 no_hand};
constexpr std::array suction_clauses{
    Clause{"place", "(in the cheek|under the tongue|behind the teeth)", true}, held, no_hand};
constexpr std::array wait_clauses{Clause{"wait", "wait @time", true},
                                  Clause{"rests", "(patient rests)"}};
constexpr std::array step_clauses{
    Clause{"step", "(operator|assistant|patient) @text", true, false, true}};
constexpr std::array again_if_clauses{Clause{"text", "@text", true}};
constexpr std::array again_most_clauses{Clause{"times", "@count times", true}};
constexpr std::array camera_clauses{
    Clause{"ahead", "straight ahead"},
    Clause{"side", "from (right|left)", false, false, false, "azimuth"},
    Clause{"azimuth", "@angle from midline", false, false, false, "side"},
    Clause{"height", "@angle from (above|below)"}, Clause{"roll", "upside down"}};
constexpr std::array camera_held_clauses{Clause{"how", "(level|upright)", true}};
constexpr std::array distance_clauses{Clause{"least", "at least @length"},
                                      Clause{"exactly", "@length"},
                                      Clause{"of camera", "(set by the camera)"}};
constexpr std::array aim_clauses{
    Clause{"tooth", "@tooth"}, Clause{"between", "between @tooth and @tooth"},
    Clause{"thing", "(that tooth|that site|middle of the mouth|middle of the face|nearer eye)"}};
constexpr std::array show_clauses{
    Clause{"teeth", "[(facial|buccal|labial|occlusal|incisal|lingual|palatal)] @teeth", false,
           true},
    Clause{"that", "(facial|buccal|labial|occlusal|incisal|lingual|palatal) that tooth"},
    Clause{"third", "(incisal third|middle third|cervical third)"},
    Clause{"thing",
           "(that tooth|that site|shade tab|ruler|whole head|face|upper ridge|lower ridge|upper "
           "denture|lower denture|lips|ears)",
           false, true},
    Clause{"gum", "gum of @teeth", false, true},
    Clause{"present", "(whichever teeth are there)"}};
constexpr std::array not_show_clauses{
    Clause{"what",
           "(fingers|lips|cheeks|retractors|mirror edge|tongue|nose|ears|saliva|bubbles|glare|"
           "neighbouring teeth|opposing teeth|hair|jewellery|name of the patient)",
           true, true}};
constexpr std::array turned_clauses{Clause{"most", "at most @angle", true}};
constexpr std::array picture_clauses{
    Clause{"direct", "as seen directly"},
    Clause{"towards", "(front teeth|back teeth|biting edges) at the (top|bottom|left|right)"},
    Clause{"mirrored", "stays mirrored"}, Clause{"marked", "marked @text"}};
constexpr std::array reason_clauses{Clause{"how", "(write the reason)", true}};
constexpr std::array else_view_clauses{Clause{"view", "@name", true}};
constexpr std::array text_clauses{Clause{"text", "@text", true}};
constexpr std::span<const Clause> no_clauses{};

// Rows -------------------------------------------------------------------------------------------

constexpr unsigned mouth = in_every | in_view;
constexpr unsigned face = in_every_face | in_face;
constexpr unsigned any_view = mouth | face;

using E = Effect;

constexpr std::array rows{
    // A file and its protocol
    Row("norma", in_file, edition_clauses, E::text,
        "edition of the language; the first line of every file", "norma 1")
        .part(1, false),
    Row("protocol", in_file, heading_clauses, E::text,
        "a protocol: its name, its title, and a block with all that belongs to it",
        "protocol harbour_five \"Five-view record\" { }")
        .list()
        .part(1, true),
    Row("builds on", in_protocol, builds_clauses, E::record,
        "takes over the protocol of another file; what follows changes it; `as of` and the "
        "fingerprint of that protocol behind it: a change of it is told",
        "builds on harbour_five from \"five.norma\"")
        .also_written("based on, extends, uses, import, include"),
    Row("revision", in_protocol, revision_clauses, E::record,
        "number of this edition of the protocol; counts up", "revision 3")
        .also_written("version"),
    Row("adopted", in_protocol, date_clauses, E::record, "day from which the protocol holds",
        "adopted 2026-09-01")
        .also_written("date, since"),
    Row("review by", in_protocol, date_clauses, E::record,
        "day by which somebody looks at the protocol again", "review by 2027-09-01")
        .also_written("expires"),
    Row("for", in_protocol, for_clauses, E::patients, "whom the protocol is for",
        "for children, mixed teeth")
        .also_written("patients, group"),
    Row("missing", in_protocol, missing_clauses, E::patients,
        "teeth that the patients of this protocol do not have", "missing 14, 24, 34, 44")
        .also_written("missing teeth, without teeth, extracted"),
    Row("sensor", in_protocol, sensor_clauses, E::scale,
        "the sensor that the ratios are meant for, width by height", "sensor 36 x 24 mm")
        .also_written("format"),
    Row("assistant", in_protocol, assistant_clauses, E::handling,
        "nobody helps: the patient holds it, or it needs no hand", "assistant none"),
    Row("originals", in_protocol, originals_clauses, E::record,
        "what is done with the files as the camera wrote them", "originals kept unaltered")
        .also_written("files"),
    Row("crops", in_protocol, crops_clauses, E::record, "whether cropping is noted, or not done",
        "crops noted"),
    Row("file names", in_protocol, file_names_clauses, E::record, "what file names hold",
        "file names without name of the patient, by record number"),
    Row("grey card", in_protocol, grey_card_clauses, E::handling,
        "a grey card is photographed, too, once in each series, as its first or last view is "
        "taken; colour and brightness are judged by it",
        "grey card before the first view, held by assistant")
        .also_written("gray card, white card, grey card shot"),
    Row("every mouth view", in_protocol, no_clauses, E::handling,
        "what holds for all views of the mouth, unless the view says otherwise",
        "every mouth view { }")
        .part(2, true)
        .also_written("every view, all views, every picture, change every mouth view"),
    Row("every face view", in_protocol, no_clauses, E::handling,
        "what holds for all views of the face, unless the view says otherwise",
        "every face view { }")
        .part(2, true)
        .also_written("change every face view"),
    Row("view", in_protocol, view_clauses, E::framing,
        "one view of the mouth: name, title, perhaps the view it is made from",
        "view left \"Left side\", same as right, for the other side { }")
        .list()
        .part(2, true)
        .also_written("picture, shot, mouth view, photo"),
    Row("face view", in_protocol, view_clauses, E::framing, "one view of the face",
        "face view smile \"Smiling\" { }")
        .list()
        .part(2, true)
        .also_written("portrait, facial view"),
    Row("series", in_protocol, series_clauses, E::handling,
        "views in the order in which they are taken, and how they are laid out on a sheet: `laid "
        "out front, next row upper, lower`",
        "series record = front, upper, lower optional")
        .list()
        .part(2, false)
        .also_written("set, record"),
    Row("change view", in_protocol, edit_view_clauses, E::framing,
        "changes a view of the protocol that this one builds on; only what differs is written",
        "change view front because \"small mouths\" { }")
        .list()
        .part(2, true)
        .also_written("modify view, edit view, override view, change"),
    Row("change series", in_protocol, std::span<const Clause>(series_clauses), E::handling,
        "puts other views into a series of the protocol that this one builds on",
        "change series record = front, upper")
        .list()
        .part(2, false),
    Row("drop view", in_protocol, edit_view_clauses, E::record, "leaves a view of the base out",
        "drop view lower because \"taken with the scanner\"")
        .list()
        .part(2, false)
        .also_written("remove view, delete view, drop"),
    Row("accept", in_protocol, accept_clauses, E::record,
        "a finding that is known and lived with, in one view, in one series (`in series record`) "
        "or in the protocol (no `in`); with that kit only, which is called by its name (between "
        "quotes where that has blanks), and up to that day, it included; it is still printed",
        "accept glare_from_metal in right with chair_3 until 2027-03-01 because \"no frosted "
        "retractor yet\"")
        .list()
        .part(2, false)
        .also_written("allow, ignore, except"),

    // What the view is
    Row("for", in_view | in_face | in_every | in_every_face, for_clauses, E::patients,
        "what is different for a group of patients", "for children, mixed teeth { }")
        .list()
        .part(3, true),
    Row("others must keep", in_view | in_face, others_keep_clauses, E::record,
        "words that a protocol which builds on this one cannot change in this view",
        "others must keep ratio, camera")
        .also_written("fixed")
        .without("words that others must keep"),
    Row("code", in_view | in_face, code_clauses, E::record,
        "code of the view in the standard's table", "code IV07")
        .sides()
        .own_jaw(),
    Row("consent for", in_protocol | any_view, consent_clauses, E::record,
        "what the pictures may be used for, if the patient agrees", "consent for record, teaching")
        .also_written("consent"),
    Row("tooth", mouth, tooth_clauses, E::framing,
        "the view shows one tooth, named at the chair, and which it may be; `that tooth` speaks of "
        "it",
        "tooth named at the chair, 13 to 23")
        .sides()
        .jaws(),
    Row("site", mouth, chairside_clauses, E::framing,
        "the view shows one place, named at the chair; `that site` speaks of it",
        "site named at the chair")
        .also_written("lesion, finding, region"),

    // Scale, light and sharpness
    Row("ratio", any_view, ratio_clauses, E::scale,
        "size on the sensor to size of the subject; or the field that the picture is to take in, "
        "whatever the sensor",
        "ratio 1:2")
        .also_written("magnification, scale, reproduction, reproduction ratio"),
    Row("distance", any_view, distance_clauses, E::perspective,
        "how far the front of the lens stands from what is photographed",
        "distance at least 1000 mm")
        .also_written("working distance"),
    Row("aperture", any_view, aperture_clauses, E::sharpness,
        "the aperture, or the range norma may choose from", "aperture f/22 to f/32")
        .also_written("diaphragm, stop, f stop"),
    Row("iso", any_view, iso_clauses, E::light, "speed of the sensor", "iso 200")
        .also_written("sensitivity, asa, ISO"),
    Row("shutter", any_view, shutter_clauses, E::light, "exposure time", "shutter 1/125 s")
        .also_written("speed, shutter speed, exposure time"),
    Row("exposure", any_view, exposure_clauses, E::light,
        "as bright as another view; norma works out the offset, or it is given",
        "exposure as view front")
        .also_written("brightness"),
    Row("white balance", any_view, white_balance_clauses, E::light,
        "what the camera takes for white: a colour temperature, one of its own settings, or what "
        "it finds on a grey card",
        "white balance 5500 K")
        .also_written("wb, WB, colour temperature, color temperature, colour balance"),
    Row("file format", any_view, file_format_clauses, E::record, "what the camera writes",
        "file format raw and JPEG")
        .also_written("raw, image format, image quality"),
    Row("lamp", any_view, lamp_clauses, E::light,
        "which lamp, and which way one with a side points", "lamp point, towards the front teeth")
        .sides()
        .also_written("flash, light, lighting"),
    Row("background", face, background_clauses, E::framing, "what is behind the head",
        "background plain, at least 500 mm behind the head")
        .also_written("backdrop"),
    Row("allowed blur", any_view, blur_clauses, E::promise,
        "how wide a blurred point may be on the sensor", "allowed blur 0.030 mm on the sensor")
        .also_written("blur, circle of confusion"),
    Row("tolerance", any_view, tolerance_clauses, E::promise, "how far the camera may be off",
        "tolerance 5 deg of the camera, 20 mm of distance")
        .also_written("tolerances"),

    // People and instruments
    Row("retractor", mouth, retractor_clauses, E::room,
        "retractor on one side of the mouth, or on both",
        "retractor right tension firm, outwards and back, held by assistant")
        .keyed("both|left|right")
        .sides()
        .jaws()
        .also_written("retractors, cheek retractor"),
    Row("mirror", mouth, mirror_clauses, E::direction,
        "the mirror the picture is taken in, and who holds it",
        "mirror occlusal, held by assistant")
        .sides(),
    Row("contrast paddle", mouth, paddle_clauses, E::framing, "a dark plate behind the front teeth",
        "contrast paddle behind the upper front teeth, black, held by assistant")
        .jaws()
        .also_written("contrastor, black background, paddle"),
    Row("shade tab", mouth, tab_clauses, E::framing,
        "a tab of the shade guide, and where it is held",
        "shade tab edge to edge with that tooth, in its plane, held by assistant")
        .also_written("shade guide"),
    Row("ruler", mouth, ruler_clauses, E::framing, "a scale in the picture",
        "ruler beside that site, in its plane, held by assistant")
        .also_written("scale bar"),
    Row("frame", mouth, frame_clauses, E::framing,
        "an open frame in the focus plane: what is inside is in the picture",
        "frame 18 x 12 mm, fixed to the lens"),
    Row("guide", mouth, guide_clauses, E::handling, "distance guide of a fixed-focus camera",
        "guide resting on the chin")
        .also_written("chin guide"),
    Row("insert with", mouth, insert_clauses, E::handling,
        "how the mouth is while mirror and retractors go in", "insert with teeth apart a little")
        .also_written("insert")
        .without("way of inserting"),
    Row("take out first", mouth, take_out_clauses, E::handling, "what comes out before the rest",
        "take out first mirror")
        .without("thing to take out first"),
    Row("photographed", mouth, photographed_clauses, E::direction,
        "the picture is the mirror's image, not a direct one", "photographed in a mirror")
        .also_written("taken in, taken in a")
        .without("picture in a mirror"),
    Row("teeth", any_view, teeth_clauses, E::framing,
        "how upper and lower teeth stand to each other", "teeth together, usual bite")
        .also_written("bite, occlusion"),
    Row("dentures", any_view, dentures_clauses, E::framing, "whether dentures are worn",
        "dentures out")
        .also_written("denture, prosthesis"),
    Row("mouth", any_view, mouth_clauses, E::framing, "how far the mouth is open",
        "mouth open wide")
        .also_written("opening"),
    Row("lips", any_view, lips_clauses, E::framing, "how the lips are", "lips relaxed")
        .also_written("lip"),
    // The camera of a mouth view looks at a jaw wherever the head is; a face is seen as it is held.
    Row("head", any_view, head_clauses, E::handling,
        "how the patient holds the head; in natural position: sitting or standing upright, the "
        "eyes on a far point level with them",
        "head tipped back")
        .sides()
        .of_face(E::framing),
    Row("operator", any_view, operator_clauses, E::handling, "where the operator stands",
        "operator behind the head")
        .sides()
        .also_written("photographer"),
    Row("tongue", mouth, tongue_clauses, E::room, "where the tongue goes",
        "tongue back, behind the mirror")
        .own_jaw(),
    Row("air", mouth, air_clauses, E::handling, "air against fogging or wetness, and who holds it",
        "air on the mirror, held by assistant")
        .also_written("blow, air syringe"),
    Row("suction", mouth, suction_clauses, E::handling, "where the suction is, and who holds it",
        "suction in the cheek, held by assistant")
        .also_written("aspirator, saliva ejector"),
    Row("taken", mouth, drying_clauses, E::promise,
        "whether the picture comes before or after the teeth are dried", "taken before drying")
        .also_written("drying, moisture")
        .without("time of drying"),
    Row("step", any_view, step_clauses, E::handling, "what somebody does besides",
        "step assistant \"Wipe the mirror.\"")
        .list(),
    Row("say", any_view, text_clauses, E::text, "what is said to the patient",
        "say \"Teeth together, please.\"")
        .list()
        .also_written("prompt, tell")
        .without("words to say"),
    Row("caution", any_view, text_clauses, E::handling, "what to look out for in this view",
        "caution \"The lower lip is sore today.\"")
        .list()
        .also_written("warning, note"),
    Row("stop if", any_view, text_clauses, E::handling, "when to stop at once",
        "stop if \"the patient raises a hand\"")
        .list()
        .also_written("stop when")
        .without("reason to stop"),
    Row("after picture", any_view, wait_clauses, E::handling,
        "what the sequence waits for after this picture", "after picture wait 60 s, patient rests")
        .also_written("wait, pause")
        .without("wait after the picture"),

    // Camera and frame
    Row("camera", any_view, camera_clauses, E::direction, "where the camera looks from",
        "camera from right, 60 deg from midline")
        .sides()
        .jaws()
        .also_written("angle, position"),
    Row("camera held", any_view, camera_held_clauses, E::hold, "how the camera is held",
        "camera held upright")
        .also_written("held, orientation")
        .without("way of holding the camera"),
    Row("centre on", any_view, aim_clauses, E::framing,
        "what lies in the middle of the picture: of one tooth its crown's middle, of a run of "
        "teeth "
        "the middle of what they show",
        "centre on between 11 and 21")
        .sides()
        .jaws()
        .also_written("center on, centre, center, aim")
        .without("point in the middle"),
    Row("focus on", any_view, aim_clauses, E::sharpness, "what the lens is focused on",
        "focus on 12")
        .sides()
        .jaws()
        .also_written("focus")
        .without("point of focus"),
    Row("must show", any_view, show_clauses, E::promise,
        "surfaces and teeth that are in the picture whole", "must show facial 15 to 25, 45 to 35")
        .sides()
        .jaws()
        .also_written("shows, show, should show")
        .without("parts to show"),
    Row("or else show", any_view, show_clauses, E::promise,
        "what is shown at least, where the mouth does not allow more",
        "or else show occlusal 16 to 26")
        .without("second choice of teeth")
        .sides()
        .jaws(),
    Row("may show in part", any_view, show_clauses, E::promise,
        "teeth that need not be in the picture whole", "may show in part lingual 13, 23")
        .also_written("may cut")
        .without("teeth to show in part")
        .sides()
        .jaws(),
    Row("must not show", any_view, not_show_clauses, E::promise,
        "what must stay out of the picture", "must not show fingers")
        .also_written("hide")
        .without("parts to keep out"),
    Row("must be sharp", any_view, show_clauses, E::promise,
        "surfaces and teeth that are sharp from edge to edge", "must be sharp facial 12 to 22")
        .sides()
        .jaws()
        .also_written("sharp, in focus")
        .without("parts to be sharp"),
    Row("teeth turned away", any_view, turned_clauses, E::promise,
        "how far a shown surface may be turned from the camera", "teeth turned away at most 45 deg")
        .also_written("turned away")
        .without("limit to teeth turned away"),
    Row("picture", any_view, picture_clauses, E::orientation,
        "the wanted picture: as seen directly, or as the mirror gave it, marked",
        "picture as seen directly, front teeth at the top")
        .sides()
        .own_jaw()
        .also_written("image"),

    // Acceptance, and when it can't be had
    Row("same", any_view, same_clauses, E::handling,
        "what is to be as it was at the patient's last visit: that stands in the record, not here",
        "same settings as last visit")
        .list()
        .also_written("repeat, as before, like last time")
        .without("match with the last visit"),
    Row("take again if", any_view, again_if_clauses, E::handling,
        "what makes the picture one to take again", "take again if \"a molar is cut\"")
        .list()
        .also_written("retake if, repeat if")
        .without("reason to take it again"),
    Row("take again at most", any_view, again_most_clauses, E::handling,
        "how often it is taken again", "take again at most 2 times")
        .also_written("retake at most, repeat at most")
        .without("limit to taking it again"),
    Row("or else view", any_view, else_view_clauses, E::promise,
        "the view that takes its place where this one cannot be had", "or else view front")
        .also_written("or else take, fallback")
        .without("second choice of view"),
    Row("if not possible", any_view, reason_clauses, E::handling,
        "what is done when the view cannot be taken", "if not possible write the reason")
        .without("rule for when it is not possible"),
};

/// The rows as plain words.
constexpr auto table = [] {
  std::array<Word, rows.size()> out{};
  for (std::size_t i = 0; i < rows.size(); ++i)
    out[i] = rows[i];
  return out;
}();

} // namespace

std::span<const Word> vocabulary() { return table; }

} // namespace norma::words
