// The typed kit: what one chair has, as measured there. Every value knows its place in the file.
//
// The folder kit/ reads kit files (strict YAML) into this; it is the one place of yaml-cpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "physics/defaults.hpp"
#include "physics/grey_card.hpp"
#include "physics/quantity.hpp"
#include "text/sourced.hpp"
#include "words/literal.hpp"

namespace norma::kit {

using text::Sourced;

/// Of kit files, as `norma kit` in the first line says it.
inline constexpr int kit_edition = 1;

/// Working distance (front of the lens to the subject) at a reproduction ratio, as measured.
struct DistanceRow {
  Magnification ratio;
  Length distance;
  text::Span span;
};

struct Lens {
  text::Span span;
  Sourced<std::string> name;
  Sourced<Length> focal_length;
  Sourced<PupilRatio> pupil_ratio;
  /// Marked f-numbers as exact ones: widest and smallest opening.
  Sourced<FNumber> widest;
  Sourced<FNumber> smallest;
  /// Marks per stop on the aperture ring: 2 or 3.
  Sourced<int> marks_per_stop;
  /// The ratios the lens can be set to: smallest and largest image.
  Sourced<Magnification> least_ratio;
  Sourced<Magnification> greatest_ratio;
  /// Engraved ratio marks, as on the lens.
  std::vector<Magnification> marks;
  /// What is on it; everything above and below is told of the lens without.
  Sourced<Length> close_up;  // focal length of a close-up lens, 1/D
  Sourced<Length> tube;      // extension, directly behind the lens
  Sourced<double> converter; // factor; behind the tube
  Sourced<Stops> filter;     // what it takes from the light
  /// From 1:n to 1:1, ordered by ratio, smallest image first.
  std::vector<DistanceRow> working_distance;
};

/// Ring: around the lens. Point: beside it. Clip-on: a point light close to the lens of a phone.
/// Built in: in the lens's own front. Twin: two alike heads, one on each side of the lens.
enum class LampKind { ring, point, clip_on, built_in, twin };
/// Where a lamp with a side sits, seen from behind the camera held upright way (landscape).
enum class LampSide { left, right, top, bottom };
/// Where the heads of a twin lamp sit, seen as the side of one.
enum class LampHeads { left_and_right, top_and_bottom };
/// How a lamp with a side gets to another one.
enum class LampMoves { fixed, by_hand };

/// Automatic: the flash or the camera meters the light and ends it. Manual: set by hand.
enum class LampControl { automatic, manual };
/// A flash burns for a moment; a steady lamp as long as the shutter is open.
enum class LampLight { flash, steady };

/// What a camera can take for white.
enum class WhiteBalance { automatic, flash, daylight, grey_card, kelvin };

/// What a camera can write at one shot.
enum class FileFormat { raw, jpeg, raw_and_jpeg };

/// One shot that was measured and found right: what was set, on a grey card, without a mirror
/// unless `mirror_loss` says what the mirror took.
struct ReferenceShot {
  text::Span span;
  Sourced<FNumber> aperture;
  Sourced<IsoSpeed> iso;
  Sourced<Magnification> ratio;
  Sourced<Power> power;
  Sourced<Length> distance; // lamp to subject
  Sourced<Stops> mirror_loss;
  Sourced<words::Date> date;
};

struct Lamp {
  text::Span span;
  Sourced<std::string> name;
  Sourced<LampKind> kind;
  Sourced<Length> radius;          // ring: radius of the flash tube's circle
  Sourced<Length> offset;          // point: from the lens axis
  Sourced<Length> heads_apart;     // twin: from the middle of one head to that of the other
  Sourced<LampHeads> heads;        // twin; left and right where not given
  Sourced<LampSide> side;          // point
  Sourced<LampMoves> moves;        // point
  Sourced<Length> behind_front;    // lamp's plane behind the front of the lens; 0 where not given
  Sourced<Length> stands_out;      // beyond the front of the lens; 0 where not given
  Sourced<std::string> burns_with; // name of another lamp of the kit
  Sourced<LampControl> control;
  Sourced<LampLight> light;     // flash where not given
  Sourced<ColourTemperature> colour_temperature;
  Sourced<Time> flash_duration; // at the power in use
  Sourced<Length> guide_number; // at ISO 100 and full power, in metres
  std::optional<ReferenceShot> reference;
  Sourced<Power> least_power;
  Sourced<Time> shortest_shutter;
};

enum class Material { metal, plastic };
enum class Finish { polished, frosted, clear };
enum class RetractorEnd { small, large };
/// One piece for one side of the mouth, or a springy one that holds both.
enum class RetractorSides { one, both };
/// Whether a hand has to pull it, or it stays where it is put.
enum class RetractorHeld { by_hand, by_itself };

struct Retractor {
  text::Span span;
  Sourced<std::string> name;
  Sourced<Material> material;
  Sourced<Finish> finish;
  std::vector<RetractorEnd> ends; // one or two
  Sourced<RetractorSides> sides;  // one where not given
  Sourced<RetractorHeld> held;
  Sourced<int> pieces;
  Sourced<words::Date> frosted_on;
  Sourced<int> cycles_since_frosted;
  Sourced<int> frosting_lasts_cycles;
  Sourced<Length> hook_radius;  // of its blade around the corner of the mouth, in plan
  Sourced<Length> blade_height; // along the lips
  Sourced<Angle> blade_bend;    // back, at its upper and lower end

  [[nodiscard]] bool holds_both_sides() const { return sides.value_or({}) == RetractorSides::both; }
  [[nodiscard]] bool holds_itself() const { return held.value_or({}) == RetractorHeld::by_itself; }
};

/// How a mirror lies in its bag in the autoclave.
enum class Packed { alone, with_instruments };

enum class MirrorKind { occlusal, buccal, lingual, disc };
/// Two ends: a blade at either end of a grip, each half as long as the whole.
enum class MirrorOutline { rectangle, rounded, trapezoid, disc, two_ends };
enum class MirrorSurface { front, rear };
/// How the loss was found: by a grey card in the mirror (in and out: the picture's whole loss), or
/// as the reflectance of one pass.
enum class LossBy { grey_card, reflectance };

struct Mirror {
  text::Span span;
  Sourced<std::string> name;
  Sourced<MirrorKind> kind;
  Sourced<MirrorOutline> outline;
  Sourced<Length> width;      // the wide end; a disc's diameter
  Sourced<Length> narrow_end; // trapezoid, two ends
  Sourced<Length> corner;     // radius of its corners: rounded, two ends
  Sourced<Length> length;
  Sourced<MirrorSurface> surface;
  Sourced<Length> glass; // thickness
  Sourced<RefractiveIndex> glass_index;
  Sourced<Stops> loss;        // of the picture
  Sourced<Stops> loss_spread; // the +- of it
  Sourced<LossBy> loss_by;
  /// Grey cards, direct and in the mirror; the loss is worked out from them.
  Sourced<std::vector<physics::GreyPair>> grey_card;
  Sourced<Share> reflectance; // of one pass; loss is worked out from it where it alone is given
  Sourced<words::Date> measured;
  Sourced<Packed> packed;
};

/// Mouths as this chair's retractors hold them, measured on volunteers: where the corner of the
/// mouth stands, from the midline and behind the upper incisors, by the pull.
struct Mouths {
  struct Corner {
    Sourced<Length> aside;
    Sourced<Length> back;
  };
  Corner light;
  Corner even;
  Corner firm;
  Corner by_mirror;           // as far out as a mirror between cheek and teeth holds it
  Sourced<Length> lips_clear; // beyond the necks of the front teeth
  Sourced<Length> opened_wide;
};

/// A distance guide: what rests on the chin, and how far it keeps the lens away.
struct Guide {
  text::Span span;
  Sourced<std::string> name;
  Sourced<Length> keeps; // front of the lens to the teeth
};

/// An open frame in the focus plane.
struct Frame {
  text::Span span;
  Sourced<std::string> name;
  Sourced<Size> size;
};

/// Sizes of a tooth of this clinic's patients; it stands for the one of the other side, too.
struct ToothSizes {
  text::Span span;
  Sourced<physics::Tooth> tooth;
  Sourced<Length> width;  // along the arch
  Sourced<Length> height; // of the crown
  Sourced<Length> depth;  // from face to tongue side
};

/// Pictures as files can be turned and flipped afterwards; prints cannot.
enum class Pictures { files, prints };

/// Who sets ISO and shutter: the camera by what it meters (and a flash that is part of it), or a
/// hand. The aperture stays as it is set either way.
enum class ExposureBy { camera, hand };

/// One of norma's defaults as the clinic sets it.
struct OwnValue {
  const physics::Default* which = nullptr;
  Sourced<double> value; // in the unit of `which`
};

struct Kit {
  text::FileId file = text::FileId::none;
  bool readable = true; // false: it is no kit at all, or one of another edition; that was said
  Sourced<std::string> name;
  Sourced<std::string> title;
  Sourced<Size> sensor; // long side first
  Sourced<IsoSpeed> least_iso;
  Sourced<IsoSpeed> greatest_iso;
  Sourced<ExposureBy> exposure; // by hand where not given
  Sourced<double> digital_zoom; // factor by which the picture is cut out of the sensor's
  std::vector<WhiteBalance> white_balance; // none: nobody has said
  Sourced<ColourTemperature> warmest;      // that can be set as a number
  Sourced<ColourTemperature> coldest;
  std::vector<FileFormat> file_formats; // none: nobody has said
  std::optional<Lens> lens;
  std::vector<Lamp> lamps;
  std::vector<Retractor> retractors;
  std::vector<Mirror> mirrors;
  std::optional<std::vector<Guide>> guides; // nothing: nobody has said
  std::optional<std::vector<Frame>> frames;
  /// Hands that are free to hold things: the operator's own are on the camera.
  Sourced<int> assistant_hands;
  Sourced<int> patient_hands;
  Mouths mouths;
  Sourced<Illuminance> room_light; // at the teeth, lamp of the chair as it is for pictures
  Sourced<Pictures> pictures;      // files where not given
  Sourced<Time> processing;        // of a print, before the next picture
  std::vector<OwnValue> limits;
  /// Sizes of this clinic's patients in place of the published means.
  std::vector<OwnValue> anatomy;
  std::vector<ToothSizes> teeth;

  /// The lamp that burns with `lamp`; null where none does.
  [[nodiscard]] const Lamp* joined_to(const Lamp& lamp) const {
    if (!lamp.burns_with.known()) return nullptr;
    for (const Lamp& other : lamps)
      if (&other != &lamp && other.name.known() && other.name.get() == lamp.burns_with.get())
        return &other;
    return nullptr;
  }
  [[nodiscard]] bool exposes_by_itself() const {
    return exposure.known() && exposure.get() == ExposureBy::camera;
  }
};

} // namespace norma::kit
