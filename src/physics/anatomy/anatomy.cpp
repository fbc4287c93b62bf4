#include "physics/anatomy/anatomy.hpp"

namespace norma::physics {
const std::vector<SurfacePoint>& Anatomy::surface(const Crown& crown, Surface which) const {
  const bool of_upper = crown.tooth.is_upper();
  const std::vector<Crown>& teeth = arch(of_upper);
  Grids& grids = grids_[of_upper ? 1 : 0].at(static_cast<std::size_t>(which));
  std::call_once(grids.made, [&] {
    grids.by_place.reserve(teeth.size());
    for (const Crown& c : teeth)
      grids.by_place.push_back(surface_grid(c, which, grid_side));
  });
  return grids.by_place.at(static_cast<std::size_t>(&crown - teeth.data()));
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
