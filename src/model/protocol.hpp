// The typed protocol: what each view must show and how it is taken, each value with its place.
//
// The folder model/ reads trees into this: statements, merging of what holds for every view,
// derived views, typed values. It knows no kit and no optics.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/choices.hpp"
#include "physics/anatomy/tooth.hpp"
#include "physics/quantity.hpp"
#include "text/sourced.hpp"
#include "words/codes.hpp"
#include "words/literal.hpp"

namespace norma::model {

using text::Sourced;

enum class Side { right, left };
constexpr Side other(Side s) { return s == Side::right ? Side::left : Side::right; }
std::string_view to_text(Side s);

enum class Jaw { upper, lower };

/// Tooth surfaces as protocols name them; biting means occlusal or incisal, whichever the tooth
/// has.
enum class Face { facial, biting, lingual };
std::string_view to_text(Face f);

/// A surface of a tooth that is named in a view.
struct NamedFace {
  Face face = Face::facial;
  physics::Tooth tooth;
  friend auto operator<=>(const NamedFace&, const NamedFace&) = default;
};
using Faces = std::vector<NamedFace>;
/// `facial 12 to 17, 42 to 47`.
std::string to_text(const Faces& faces);

enum class Person { patient, assistant, operator_, itself };
std::string_view to_text(Person p);

struct ApertureRange {
  FNumber widest;
  FNumber narrowest; // the same where one f-number is given
};

/// Where the camera looks from, in the frame of the jaw that is shown.
struct CameraPlace {
  std::optional<Side> from; // none: straight ahead
  Angle azimuth;            // from the midline, 0 or more
  Angle elevation;          // + from above
  bool upside_down = false;
  /// Towards the patient's right is +.
  [[nodiscard]] Angle signed_azimuth() const { return from == Side::left ? -azimuth : azimuth; }
};

struct StepSaid {
  Person who = Person::operator_;
  std::string what;
};

enum class OperatorPlace { in_front, behind_head, at_right, at_left };

struct Retractor {
  text::Span span;
  bool none = false;
  bool mirror_takes_place = false;
  bool by_fingers = false; // of who holds it; no instrument
  std::optional<RetractorMaterial> material;
  std::optional<RetractorFinish> finish;
  std::optional<End> end;
  std::optional<Tension> tension;
  std::optional<Pull> pull;
  bool dry = false; // goes in as it is; unsaid, it is wetted
  std::optional<Person> held_by;
};

/// A thing that somebody holds somewhere.
struct HeldThing {
  std::vector<HeldAt> at; // where, and how it looks: behind the upper front teeth, black
  std::optional<Person> held_by;
};

enum class MirrorUse { occlusal, buccal, lingual, disc };
struct Mirror {
  MirrorUse use = MirrorUse::occlusal;
  std::optional<Side> side;
  std::optional<Length> disc; // diameter
  std::optional<End> end;
  bool turned_over = false; // the mirror of the view before, turned over
  std::optional<Angle> opened;
  bool warmed = false; // in water, against fogging
  std::optional<Person> held_by;
};

/// A tooth, or the middle between two.
struct Aim {
  physics::Tooth first;
  physics::Tooth second;          // the same where one is named
  std::optional<AimedAt> thing{}; // what is named in place of teeth
};

struct Exposure {
  std::string as_view; // "" where none is named
  text::Span as_view_span;
  std::optional<Stops> offset; // as given; + is more light
};

enum class LampWanted { any, ring, point, clip_on, built_in, twin };
enum class LampTowards { unsaid, front_teeth, cheek, nose };
/// Modelling: from one side, so that shadows show the shape. Even: without them.
enum class LampLook { unsaid, modelling, even };
struct LampUse {
  LampWanted kind = LampWanted::any;
  LampLook look = LampLook::unsaid;
  LampTowards towards = LampTowards::unsaid;
};

/// How wide or how high the picture is to be at what is photographed.
struct FieldAsked {
  Length size;
  bool high = false; // else it is the width
  friend bool operator==(const FieldAsked&, const FieldAsked&) = default;
};

/// A colour temperature, or one of the other ways to set it.
struct WhiteBalanceSet {
  std::optional<ColourTemperature> temperature;
  std::optional<WhiteBalance> to; // where no temperature is given
};

/// A grey card that is photographed with each series.
struct GreyCard {
  GreyCardWhen when = GreyCardWhen::before_first;
  std::optional<Person> held_by;
};

enum class Edge { top, bottom, left, right };
std::string_view to_text(Edge e);
/// The wanted picture.
struct Picture {
  bool as_seen = false; // as seen directly
  bool stays_mirrored = false;
  std::string mark; // what is written on a mirrored picture
  std::optional<Landmark> landmark;
  std::optional<Edge> edge; // where the landmark lies
};

/// How upper and lower teeth stand to each other.
struct TeethHeld {
  std::optional<TeethRelation> relation;
  std::optional<Bite> bite;
};

/// What must show, or be sharp, besides named teeth: the whole head, the facial surface of that
/// tooth, the gum of some teeth.
struct ThingShown {
  std::optional<Thing> thing;  // nothing: gum
  std::optional<Face> surface; // of that tooth
  std::vector<physics::Tooth> gum_of{};
};

/// Of a tooth's height, from its biting edge.
enum class Third { incisal, middle, cervical };

enum class ViewKind { mouth, face };

struct View {
  std::string name;
  std::string title;
  ViewKind kind = ViewKind::mouth;
  text::Span heading;
  text::Span whole{};        // heading and block
  std::string made_from;     // `same as` that view; "" for none
  std::string_view crossing; // other side, lower jaw, ... with it, or ""
  /// Index of what it says in `Protocol::contents`; views with the same one say the same. -1 where
  /// it could not be resolved.
  int content = -1;
  Sourced<const words::ViewCode*> code;
  Sourced<std::vector<std::string>> fixed;
  Sourced<std::vector<Purpose>> consent;
  bool tooth_filled_in = false;
  std::vector<physics::Tooth> tooth_may_be; // none: any that the patient has
  bool site_filled_in = false;
  Sourced<Magnification> ratio;
  Sourced<FieldAsked> field;    // in the place of a ratio
  bool ratio_of_camera = false; // fixed by the camera
  Sourced<Length> least_distance;
  Sourced<Length> distance; // exactly
  Sourced<ApertureRange> aperture;
  Sourced<IsoSpeed> iso;
  Sourced<Time> shutter;
  Sourced<Exposure> exposure;
  Sourced<WhiteBalanceSet> white_balance;
  Sourced<FileFormat> file_format;
  std::vector<Sourced<AsLastVisit>> as_last_visit;
  Sourced<LampUse> lamp;
  Sourced<Backdrop> background;
  Sourced<Length> behind_head; // background at least so far behind the head
  Sourced<Length> allowed_blur;
  Sourced<Angle> tolerance_angle;
  Sourced<Length> tolerance_distance;
  Sourced<Retractor> right_retractor;
  Sourced<Retractor> left_retractor;
  Sourced<Mirror> mirror;
  Sourced<HeldThing> paddle;
  Sourced<HeldThing> shade_tab;
  Sourced<HeldThing> ruler;
  Sourced<Size> frame;
  Sourced<Guide> guide;
  Sourced<InsertWith> insert_with;
  Sourced<TakenOut> take_out_first;
  bool taken_in_mirror = false;
  text::Span taken_in;
  Sourced<TeethHeld> teeth;
  Sourced<MouthState> mouth;
  Sourced<Length> least_opening;
  Sourced<Dentures> dentures;
  Sourced<Lips> lips;
  Sourced<std::vector<HeadPose>> head;
  Sourced<OperatorPlace> operator_place;
  Sourced<std::vector<Tongue>> tongue;
  Sourced<HeldThing> air;
  Sourced<HeldThing> suction;
  Sourced<Drying> drying;
  Sourced<Time> wait_after;
  bool patient_rests = false;
  Sourced<CameraPlace> camera;
  Sourced<CameraHeld> camera_held;
  Sourced<Aim> centre;
  Sourced<Aim> focus;
  Sourced<Faces> must_show;
  Sourced<std::vector<ThingShown>> things_shown;
  bool every_tooth_present = false; // of the range, whichever stand there
  Sourced<Faces> or_else_show;
  Sourced<Faces> may_cut;
  Sourced<Faces> must_be_sharp;
  Sourced<std::vector<ThingShown>> things_sharp;
  std::optional<Third> sharp_third; // nothing: from edge to neck
  bool third_shown = false;         // a third alone must show, or may be cut off
  Sourced<std::vector<Unwanted>> must_not_show;
  Sourced<Angle> turned_away;
  Sourced<Picture> picture;
  Sourced<NotPossible> if_not_possible;
  Sourced<std::string> or_else_view;
  std::vector<Sourced<StepSaid>> steps;
  std::vector<Sourced<std::string>> prompts;
  std::vector<Sourced<std::string>> cautions;
  std::vector<Sourced<std::string>> stop_if;
  std::vector<Sourced<std::string>> take_again_if;
  Sourced<int> take_again_at_most;

  [[nodiscard]] bool teeth_together() const;
  /// Must this show?
  [[nodiscard]] bool shows(Thing thing) const;
  /// Must that tooth show, or be sharp, or is it centred or focused on?
  [[nodiscard]] bool speaks_of_that_tooth() const;
};

/// `accept glare_from_metal in right with chair_3 until 2027-03-01 because "..."`; without a place it
/// is about the protocol.
struct Exception {
  std::string finding;
  std::string view;   // "" where it is not about a view
  std::string series; // "" where it is not about a series
  std::vector<std::string> kits;    // by their names; none: whichever kit
  std::optional<words::Date> until; // it holds on that day, too
  std::string because;

  [[nodiscard]] bool has_run_out(words::Date on) const { return until && on > *until; }

  text::Span span;
  text::Span finding_span;
  text::Span place_span; // of the view or series
};

/// What a protocol changes of those it builds on.
struct Edit {
  enum class What { change_view, drop_view, change_series };
  What what = What::change_view;
  std::string name;    // of the view or series
  std::string because; // "" for a series
  text::Span whole{};  // heading and block
};

struct SeriesEntry {
  std::string view;
  bool optional = false;
  text::Span span;
};
struct Series {
  std::string name;
  std::vector<SeriesEntry> entries;
  /// How the pictures lie on a sheet, names of views row by row; not the order in which they are
  /// taken. Empty where nothing is said.
  std::vector<std::vector<std::string>> rows;
  bool whole = true; // false: a name in it leads nowhere; that is reported there
  text::Span span;
};

struct Group {
  bool children = false;
  std::optional<GroupTeeth> teeth; // none: permanent; for children: whichever

  /// Is everybody of this group in `other`, too?
  [[nodiscard]] bool within(const Group& other) const {
    return children == other.children && (!other.teeth || teeth == other.teeth);
  }
  friend bool operator==(const Group&, const Group&) = default;
};
std::string to_text(const Group& g);

struct Protocol {
  text::FileId file = text::FileId::none;
  std::string name;
  std::string title;
  text::Span heading;
  Sourced<int> revision;
  Sourced<words::Date> adopted;
  Sourced<words::Date> review_by;
  Sourced<Group> group;
  Sourced<std::vector<physics::Tooth>> missing;
  Sourced<Size> sensor;
  Sourced<std::vector<Purpose>> consent;
  bool no_assistant = false;
  Sourced<GreyCard> grey_card;
  Sourced<Originals> originals;
  Sourced<Crops> crops;
  Sourced<std::vector<FileNames>> file_names;
  std::vector<View> views;
  std::vector<std::string> contents; // as written by content.hpp
  std::string header;                // what stands beside the views, in the same way
  std::vector<Series> series;
  std::vector<Exception> exceptions;
  std::vector<Edit> edits;
  /// For whom this one is, where the protocol speaks of several groups; else "".
  std::string group_label;
  /// Digests of the resolved protocol (fingerprint.hpp), where somebody asked for them; else "".
  std::string fingerprint_pictures;
  std::string fingerprint_everything;

  [[nodiscard]] const View* view(std::string_view name) const;
};

} // namespace norma::model
