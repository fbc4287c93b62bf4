#include "physics/anatomy/anatomy.hpp"

namespace norma::physics {
namespace {

Anatomy::Grids grids_of(const std::vector<Crown>& arch) {
  Anatomy::Grids out;
  out.reserve(arch.size());
  for (const Crown& c : arch) {
    constexpr int n = Anatomy::grid_side;
    out.push_back({surface_grid(c, Surface::facial, n), surface_grid(c, Surface::biting, n),
                   surface_grid(c, Surface::lingual, n)});
  }
  return out;
}

} // namespace

const std::vector<SurfacePoint>& Anatomy::surface(const Crown& crown, Surface which) const {
  const bool of_upper = crown.tooth.is_upper();
  const auto place = static_cast<std::size_t>(&crown - arch(of_upper).data());
  return (of_upper ? upper_grids : lower_grids).at(place)[static_cast<std::size_t>(which)];
}

std::shared_ptr<const Anatomy> make_anatomy(Dentition dentition, const AnatomyValues& values) {
  auto upper = lay_arch(dentition, true, values);
  auto lower = lay_arch(dentition, false, values);
  if (!upper || !lower) return nullptr;
  auto out = std::make_shared<Anatomy>();
  out->dentition = dentition;
  out->upper = std::move(*upper);
  out->lower = std::move(*lower);
  out->jaw = jaw_of(values);
  out->palate = values.length(defaults::palate_height);
  out->floor = values.length(defaults::floor_depth);
  out->upper_grids = grids_of(out->upper);
  out->lower_grids = grids_of(out->lower);
  return out;
}

const std::shared_ptr<const Anatomy>& mean_anatomy(Dentition dentition) {
  // That the widths of each group have a curve is held by a test.
  static const auto adult = make_anatomy(Dentition::adult, {});
  switch (dentition) {
  case Dentition::adult: break;
  case Dentition::mixed: {
    static const auto mixed = make_anatomy(Dentition::mixed, {});
    return mixed;
  }
  case Dentition::primary: {
    static const auto primary = make_anatomy(Dentition::primary, {});
    return primary;
  }
  }
  return adult;
}

Length adult_arch_depth(bool upper) {
  const std::vector<Crown>& arch = adult_arch(upper);
  const auto face = [&](int iso) {
    const Crown& c = *find_crown(arch, *Tooth::from_iso(iso));
    return c.edge.y + (0.5 * c.size.depth) * c.facial.y;
  };
  return upper ? face(16) - face(11) : face(46) - face(41);
}

const std::vector<Crown>& mean_arch(Dentition dentition, bool upper) {
  return mean_anatomy(dentition)->arch(upper);
}
const std::vector<Crown>& adult_arch(bool upper) { return mean_arch(Dentition::adult, upper); }

} // namespace norma::physics
