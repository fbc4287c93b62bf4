#include "mouths/draw.hpp"

#include <algorithm>
#include <cmath>

#include "mouths/turns.hpp"

namespace norma::mouths {
namespace {

namespace d = physics::defaults;

constexpr std::string_view choice = "norma's choice";
constexpr std::string_view not_of_children =
    "borrowed from adults: no spread is published for children";
constexpr std::string_view sizes =
    "about 6 % of the mean in tables of tooth sizes (from memory); teeth of a patient go together";
constexpr std::string_view sexes =
    "both sexes together: 36.08 +- 2.04 and 34.31 +- 1.75, Wankhede et al., J Oral Maxillofac "
    "Pathol 2023;27:121-129";
constexpr std::string_view nhanes =
    "from 59.5 % between 1 and 3 mm in adults of the United States, thesis on NHANES III, 2013";
constexpr std::string_view corners = "no published value found: a range, both ways";

constexpr Spread adult[] = {
    {Varies::upper_canines, "upper_canines", 2.1, false, Origin::published, sexes},
    {Varies::lower_canines, "lower_canines", d::lower_canine_width.spread, false, Origin::published,
     d::lower_canine_width.source},
    {Varies::upper_molars, "upper_molars", d::upper_molar_width.spread, false, Origin::published,
     d::upper_molar_width.source},
    {Varies::lower_molars, "lower_molars", d::lower_molar_width.spread, false, Origin::published,
     d::lower_molar_width.source},
    {Varies::tooth_size, "tooth_size", 0.06, false, Origin::handbook, sizes},
    {Varies::overjet, "overjet", 1.7, false, Origin::published, nhanes},
    {Varies::overbite, "overbite", 1.7, false, Origin::published, nhanes},
    {Varies::palate, "palate", 2.7, false, Origin::published, d::palate_height.source},
    {Varies::opening, "opening", 6.7, false, Origin::published, d::opened_wide.source},
    {Varies::corner_aside, "corner_aside", 4, true, Origin::assumed, corners},
    {Varies::corner_back, "corner_back", 6, true, Origin::assumed, corners}};

constexpr std::string_view childrens_opening =
    "4.84 mm at 6 to 11 years, Dentistry 3000 2018, 10.5195/d3000.2018.82";
constexpr Spread children[] = {
    {Varies::upper_canines, "upper_canines", 1.9, false, Origin::assumed, not_of_children},
    {Varies::lower_canines, "lower_canines", 1.9, false, Origin::assumed, not_of_children},
    {Varies::upper_molars, "upper_molars", 2.5, false, Origin::assumed, not_of_children},
    {Varies::lower_molars, "lower_molars", 2.5, false, Origin::assumed, not_of_children},
    {Varies::tooth_size, "tooth_size", 0.06, false, Origin::handbook, sizes},
    {Varies::overjet, "overjet", 1.7, false, Origin::assumed, not_of_children},
    {Varies::overbite, "overbite", 1.7, false, Origin::assumed, not_of_children},
    {Varies::palate, "palate", 2.7, false, Origin::assumed, not_of_children},
    {Varies::opening, "opening", 4.84, false, Origin::published, childrens_opening},
    {Varies::corner_aside, "corner_aside", 4, true, Origin::assumed, corners},
    {Varies::corner_back, "corner_back", 6, true, Origin::assumed, corners}};
static_assert(std::size(adult) == varied && std::size(children) == varied);

constexpr std::string_view low =
    "norma's choice: reported as low, without a number, of 76 casts, Class I, Nepal";
constexpr Correlation together[] = {
    {Varies::upper_canines, Varies::lower_canines, 0.6, Origin::assumed, choice},
    {Varies::upper_canines, Varies::tooth_size, 0.7, Origin::assumed,
     "norma's choice: unless teeth follow the canines' width, a quarter and more of all arches "
     "could not be laid"},
    {Varies::lower_canines, Varies::tooth_size, 0.7, Origin::assumed,
     "norma's choice, as for the upper canines"},
    {Varies::upper_canines, Varies::upper_molars, 0.3, Origin::assumed, low},
    {Varies::lower_canines, Varies::lower_molars, 0.3, Origin::assumed, low},
    {Varies::upper_canines, Varies::lower_molars, 0.27, Origin::assumed, low},
    {Varies::lower_canines, Varies::upper_molars, 0.27, Origin::assumed, low},
    {Varies::upper_molars, Varies::lower_molars, 0.9, Origin::assumed,
     "norma's choice: the jaws meet"}};

/// The row of the spaces between front teeth; null where the model of this group has none.
const Default* spaces_of(Dentition dentition, bool upper) {
  if (dentition == Dentition::adult) return upper ? &d::upper_spaces : &d::lower_spaces;
  if (dentition == Dentition::primary) return upper ? &d::upper_spaces_milk : &d::lower_spaces_milk;
  return nullptr;
}

constexpr std::size_t at(Varies what) { return static_cast<std::size_t>(what); }

/// Numbers off the mean, hanging together as they do.
std::array<double, varied> off_mean(const Sequence::At& point, const Matrix& lower,
                                    std::span<const Spread> rows) {
  std::array<double, varied> free{};
  for (std::size_t i = 0; i < varied; ++i)
    free[i] = rows[i].range ? 2.0 * point[i] - 1.0 : normal_deviate(point[i]);
  std::array<double, varied> out{};
  for (std::size_t i = 0; i < varied; ++i) {
    for (std::size_t j = 0; j <= i; ++j)
      out[i] += lower[i][j] * free[j];
    // A hair's breadth of the machine's arithmetic must not decide anything.
    out[i] = std::round(out[i] * 0x1p30) * 0x1p-30;
  }
  return out;
}

struct Built {
  std::shared_ptr<const physics::Anatomy> anatomy; // null: no curve
  bool spaced = false;
};

/// The least spaces, in whole mm more than the mean's, with which a curve meets the widths.
Built built(const Group& group, physics::AnatomyValues values) {
  constexpr int most_spaces = 8; // mm in a jaw
  Built out;
  if ((out.anatomy = physics::make_anatomy(group.dentition, values))) return out; // most
  const Length tip = values.length(d::canine_tip);
  for (const bool upper : {true, false}) {
    const Default* row = spaces_of(group.dentition, upper);
    const double mean = row == nullptr ? 0.0 : values.length(*row).in(mm);
    int more = 0;
    while (!physics::solve_arch(physics::tooth_row(group.dentition, upper, values), tip)) {
      if (row == nullptr || ++more > most_spaces) return out;
      values.set(*row, mean + more);
    }
    out.spaced = out.spaced || more > 0;
  }
  out.anatomy = physics::make_anatomy(group.dentition, values);
  return out;
}

/// All but the teeth.
Drawn by_point(const Group& group, const Sequence::At& point) {
  static const Matrix lower = *lower_triangle(together); // held by a test
  Drawn out;
  out.off = off_mean(point, lower, spreads(group.dentition));
  const auto more = [&](Varies what) { return out.off[at(what)] * group.spread[at(what)] * mm; };
  out.opening = more(Varies::opening);
  out.corner_aside = more(Varies::corner_aside);
  out.corner_back = more(Varies::corner_back);
  return out;
}

physics::AnatomyValues values_of(const Group& group, const std::array<double, varied>& off) {
  physics::AnatomyValues values = group.values;
  for (const Spread& spread : spreads(group.dentition)) {
    const Default* row = row_of(spread.what, group.dentition);
    const double by = group.spread[at(spread.what)];
    if (row != nullptr && by != 0)
      values.set(*row, group.values.length(*row).in(mm) + off[at(spread.what)] * by);
  }
  const double size = 1.0 + off[at(Varies::tooth_size)] * group.spread[at(Varies::tooth_size)];
  if (size == 1.0) return values;
  for (const bool of_upper : {true, false}) {
    for (const physics::Tooth tooth :
         physics::tooth_row(group.dentition, of_upper, group.values).teeth) {
      const physics::CrownSize usual = physics::crown_size(tooth, group.values);
      values.set(physics::OwnTooth{tooth, usual.height, usual.width * size, usual.depth * size});
    }
  }
  return values;
}

} // namespace

std::span<const Spread> spreads(Dentition dentition) {
  return dentition == Dentition::adult ? std::span(adult) : std::span(children);
}

const Default* row_of(Varies what, Dentition dentition) {
  const auto of = [&](const Default& adults, const Default& mixed, const Default& milk) {
    return dentition == Dentition::adult ? &adults : dentition == Dentition::mixed ? &mixed : &milk;
  };
  switch (what) {
  case Varies::upper_canines:
    return of(d::upper_canine_width, d::upper_canine_width_mixed, d::upper_canine_width_milk);
  case Varies::lower_canines:
    return of(d::lower_canine_width, d::lower_canine_width_mixed, d::lower_canine_width_milk);
  case Varies::upper_molars:
    return of(d::upper_molar_width, d::upper_molar_width_mixed, d::upper_molar_width_milk);
  case Varies::lower_molars:
    return of(d::lower_molar_width, d::lower_molar_width_mixed, d::lower_molar_width_milk);
  case Varies::overjet: return &d::overjet;
  case Varies::overbite: return &d::overbite;
  case Varies::palate: return &d::palate_height;
  case Varies::tooth_size:
  case Varies::opening:
  case Varies::corner_aside:
  case Varies::corner_back: break;
  }
  return nullptr;
}

std::span<const Correlation> correlations() { return together; }

std::optional<Matrix> lower_triangle(std::span<const Correlation> rows) {
  Matrix whole{};
  for (std::size_t i = 0; i < varied; ++i)
    whole[i][i] = 1;
  for (const Correlation& row : rows) {
    whole[at(row.one)][at(row.other)] = row.r;
    whole[at(row.other)][at(row.one)] = row.r;
  }
  // Cholesky's method; what is left of the diagonal is 0 where one hangs wholly on others.
  constexpr double rounding = 1e-12;
  Matrix out{};
  for (std::size_t i = 0; i < varied; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double left = whole[i][j];
      for (std::size_t k = 0; k < j; ++k)
        left -= out[i][k] * out[j][k];
      if (i == j) {
        if (left < -rounding) return std::nullopt;
        out[i][i] = std::sqrt(std::max(left, 0.0));
      } else if (out[j][j] > rounding) {
        out[i][j] = left / out[j][j];
      } else if (std::abs(left) > rounding) {
        return std::nullopt;
      }
    }
  }
  return out;
}

Group group_of(Dentition dentition, physics::AnatomyValues values) {
  Group out{dentition, std::move(values), {}};
  for (const Spread& row : spreads(dentition))
    out.spread[at(row.what)] = row.by;
  return out;
}

Drawn with_corners_alike(Drawn mouth) {
  mouth.corner_aside = mouth.corner_back = Length{};
  mouth.off[at(Varies::corner_aside)] = mouth.off[at(Varies::corner_back)] = 0;
  return mouth;
}

Mouths draw(const Group& group, std::size_t count, std::uint64_t seed, unsigned threads) {
  Mouths out;
  out.asked = std::min(count, most_mouths);
  const Sequence sequence(seed);
  std::vector<Drawn> all(out.asked);
  std::vector<char> spaced(out.asked, 0);
  in_turns(all.size(), threads, [&](std::size_t i) {
    all[i] = by_point(group, sequence.at(i));
    Built teeth = built(group, values_of(group, all[i].off));
    all[i].anatomy = std::move(teeth.anatomy);
    spaced[i] = teeth.spaced ? 1 : 0;
  });
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].anatomy == nullptr) continue;
    out.spaced += static_cast<std::size_t>(spaced[i]);
    out.drawn.push_back(std::move(all[i]));
  }
  return out;
}

Drawn near_to(const Group& group, const Sequence::At& point) {
  Drawn out = by_point(group, point);
  std::array<double, varied> off = out.off;
  constexpr int most_halvings = 6;
  for (int i = 0; i < most_halvings && out.anatomy == nullptr; ++i) {
    out.anatomy = built(group, values_of(group, off)).anatomy;
    for (double& one : off)
      one *= 0.5;
  }
  if (out.anatomy == nullptr) out.anatomy = built(group, group.values).anatomy;
  return out;
}

std::optional<placing::Setting> of_mouth(const placing::Setting& setting, const Drawn& mouth,
                                         bool opens_wide) {
  physics::MouthState state = setting.mouth;
  state.anatomy = mouth.anatomy;
  const auto pull = [&](std::optional<physics::MouthCorner>& corner) {
    if (corner) corner = physics::held_otherwise(*corner, mouth.corner_aside, mouth.corner_back);
  };
  pull(state.right);
  pull(state.left);
  std::optional<Length> opening = setting.opening;
  if (opening && opens_wide) opening = std::max(*opening + mouth.opening, Length{});
  auto out = placing::of_mouth(setting, std::move(state), opening);
  if (!out) return out;
  std::optional<physics::MouthCorner> firm = out->corners.firm;
  pull(firm);
  out->corners.firm = *firm;
  pull(out->corners.by_mirror);
  return out;
}

} // namespace norma::mouths
