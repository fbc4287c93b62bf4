#include "margins/together.hpp"

#include <algorithm>

#include "mouths/shares.hpp"
#include "mouths/turns.hpp"
#include "physics/defaults.hpp"

namespace norma::margins {

static_assert(errors <= mouths::Sequence::dimensions);

const physics::Default& spread_row(Error what) {
  namespace d = physics::defaults;
  switch (what) {
  case Error::camera_sideways:
  case Error::camera_height: return d::camera_angle_off;
  case Error::camera_roll: return d::camera_roll_off;
  case Error::camera_distance: return d::camera_distance_off;
  case Error::aim_across:
  case Error::aim_up: return d::aim_off;
  case Error::focus: return d::focus_off;
  case Error::mirror_angle:
  case Error::mirror_turn: return d::mirror_angle_off;
  case Error::mirror_slide: return d::mirror_slide_off;
  case Error::corner_aside:
  case Error::corner_back: break;
  }
  return d::corner_off;
}

Together together(const Standing& planned, const Spreads& spreads, std::size_t shots,
                  std::uint64_t seed, unsigned threads) {
  Together out;
  out.shots = std::min(shots, most_shots);
  const Judge judge(planned, physics::usual_pieces, true);
  const mouths::Sequence sequence(seed);
  std::vector<std::optional<Broken>> broken(out.shots);
  mouths::in_turns(out.shots, threads, [&](std::size_t i) {
    const auto point = sequence.at(i);
    Spreads off{};
    for (std::size_t e = 0; e < errors; ++e)
      off[e] = spreads[e] * mouths::normal_deviate(point[e]);
    broken[i] = judge.broken(disturbed(planned, off));
  });
  std::vector<char> holds;
  for (const auto& one : broken) {
    holds.push_back(one ? 0 : 1);
    if (one) {
      ++out.first[static_cast<std::size_t>(one->promise)];
    } else {
      ++out.hold;
    }
  }
  out.error = mouths::error_of_share(holds);
  return out;
}

} // namespace norma::margins
