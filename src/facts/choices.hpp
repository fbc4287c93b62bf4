// Values of facts that are one of a few, and the terms that say them; of kinds of instruments, too.
#pragma once

#include <utility>

#include "facts/fact.hpp"
#include "facts/phrases.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "physics/anatomy/dentition.hpp"
#include "physics/orientation.hpp"

namespace norma::facts {

using model::CameraHeld;
using model::FileFormat;
using model::term_of;
/// What the side of the lens that the lamp is on lies towards.
enum class LampAt { front_teeth, cheek, neither };
enum class Mirroring { mirrored, none };
/// A code that does not fit is impossible.
enum class CodeFit { fits };

template <> struct TermsOf<LampAt> {
  static constexpr std::pair<LampAt, const diag::Row*> all[] = {
      {LampAt::front_teeth, &phrase::the_front_teeth},
      {LampAt::cheek, &phrase::the_cheek},
      {LampAt::neither, &phrase::neither}};
};
template <> struct TermsOf<Mirroring> {
  static constexpr std::pair<Mirroring, const diag::Row*> all[] = {
      {Mirroring::mirrored, &phrase::mirrored}, {Mirroring::none, &phrase::not_mirrored}};
};
template <> struct TermsOf<CodeFit> {
  static constexpr std::pair<CodeFit, const diag::Row*> all[] = {
      {CodeFit::fits, &phrase::code_fits}};
};
template <> struct TermsOf<model::Side> {
  static constexpr std::pair<model::Side, const diag::Row*> all[] = {
      {model::Side::right, &phrase::right}, {model::Side::left, &phrase::left}};
};
template <> struct TermsOf<model::Edge> {
  static constexpr std::pair<model::Edge, const diag::Row*> all[] = {
      {model::Edge::top, &phrase::top},
      {model::Edge::bottom, &phrase::bottom},
      {model::Edge::left, &phrase::left},
      {model::Edge::right, &phrase::right}};
};
template <> struct TermsOf<kit::LampSide> {
  static constexpr std::pair<kit::LampSide, const diag::Row*> all[] = {
      {kit::LampSide::left, &phrase::left},
      {kit::LampSide::right, &phrase::right},
      {kit::LampSide::top, &phrase::top},
      {kit::LampSide::bottom, &phrase::bottom}};
};
template <> struct TermsOf<kit::WhiteBalance> {
  static constexpr std::pair<kit::WhiteBalance, const diag::Row*> all[] = {
      {kit::WhiteBalance::automatic, &phrase::white_balance_automatic},
      {kit::WhiteBalance::flash, &phrase::white_balance_flash},
      {kit::WhiteBalance::daylight, &phrase::white_balance_daylight},
      {kit::WhiteBalance::grey_card, &phrase::white_balance_by_card},
      {kit::WhiteBalance::kelvin, &phrase::white_balance_by_number}};
};
template <> struct TermsOf<kit::FileFormat> {
  static constexpr std::pair<kit::FileFormat, const diag::Row*> all[] = {
      {kit::FileFormat::raw, &model::row_of(FileFormat::raw).term},
      {kit::FileFormat::jpeg, &model::row_of(FileFormat::jpeg).term},
      {kit::FileFormat::raw_and_jpeg, &model::row_of(FileFormat::raw_and_jpeg).term}};
};
template <> struct TermsOf<kit::MirrorSurface> {
  static constexpr std::pair<kit::MirrorSurface, const diag::Row*> all[] = {
      {kit::MirrorSurface::front, &phrase::front_of_glass},
      {kit::MirrorSurface::rear, &phrase::rear_of_glass}};
};
template <> struct TermsOf<physics::Turn> {
  static constexpr std::pair<physics::Turn, const diag::Row*> all[] = {
      {physics::Turn::none, &phrase::turn_none},
      {physics::Turn::flip_sideways, &phrase::turn_flip_sideways},
      {physics::Turn::flip_upside_down, &phrase::turn_flip_upside_down},
      {physics::Turn::half_turn, &phrase::turn_half},
      {physics::Turn::quarter_left, &phrase::turn_quarter_left},
      {physics::Turn::quarter_right, &phrase::turn_quarter_right},
      {physics::Turn::flip_and_quarter_left, &phrase::turn_flip_and_quarter_left},
      {physics::Turn::flip_and_quarter_right, &phrase::turn_flip_and_quarter_right}};
};
template <> struct TermsOf<physics::Dentition> {
  static constexpr std::pair<physics::Dentition, const diag::Row*> all[] = {
      {physics::Dentition::adult, &phrase::adult},
      {physics::Dentition::mixed, &phrase::child_with_mixed_teeth},
      {physics::Dentition::primary, &phrase::child_with_milk_teeth}};
};

// Kinds of instruments
// -----------------------------------------------------------------------------

template <> struct TermsOf<kit::LampKind> {
  static constexpr std::pair<kit::LampKind, const diag::Row*> all[] = {
      {kit::LampKind::ring, &phrase::ring_light},
      {kit::LampKind::point, &phrase::point_light},
      {kit::LampKind::clip_on, &phrase::clip_on_lamp},
      {kit::LampKind::built_in, &phrase::built_in_lamp},
      {kit::LampKind::twin, &phrase::twin_lamp}};
};
template <> struct TermsOf<kit::Finish> {
  static constexpr std::pair<kit::Finish, const diag::Row*> all[] = {
      {kit::Finish::polished, &phrase::polished},
      {kit::Finish::frosted, &phrase::frosted},
      {kit::Finish::clear, &phrase::clear}};
};
template <> struct TermsOf<kit::Material> {
  static constexpr std::pair<kit::Material, const diag::Row*> all[] = {
      {kit::Material::metal, &phrase::metal}, {kit::Material::plastic, &phrase::plastic}};
};
template <> struct TermsOf<model::MirrorUse> {
  static constexpr std::pair<model::MirrorUse, const diag::Row*> all[] = {
      {model::MirrorUse::occlusal, &phrase::occlusal_mirror},
      {model::MirrorUse::buccal, &phrase::buccal_mirror},
      {model::MirrorUse::lingual, &phrase::lingual_mirror},
      {model::MirrorUse::disc, &phrase::disc_mirror}};
};

} // namespace norma::facts
