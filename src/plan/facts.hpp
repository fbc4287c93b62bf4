// The list of facts: one row for each thing norma works out about a view with a kit.
#pragma once

#include <span>

#include "diag/questions.hpp"
#include "plan/fact.hpp"

namespace norma::plan::fact {

using physics::Kind;
namespace question = diag::question;

// A row stands on one line: the line is its place in the list.
// Columns: id, label, kind, is it text, formula, source, what nobody knows where it is missing.
// clang-format off
#define NORMA_FACT(type, name, kind, formula, source, label, question) \
  inline constexpr FactDef<type> name{{#name, label, kind, std::is_same_v<type, std::string>, formula, source, question, __LINE__}}

// Scale and field
NORMA_FACT(Magnification, ratio_asked, Kind::ratio, "", "protocol", "ratio asked for", nullptr);
NORMA_FACT(std::string, reference_sensor, Kind::count, "", "protocol", "sensor the ratio is meant for", nullptr);
NORMA_FACT(std::string, sensor, Kind::count, "", "kit", "sensor of the kit", nullptr);
NORMA_FACT(Magnification, ratio_exact, Kind::ratio, "m' = m min(w'/w, h'/h)", "geometry: the field is the sensor over the ratio", "ratio with the same field on this sensor", nullptr);
NORMA_FACT(Magnification, ratio, Kind::ratio, "1:n within 3 % of the exact one, n whole or else in halves; else the exact one", "geometry; the 3 % are norma's choice", "ratio to set", &question::lens_reaches);
NORMA_FACT(std::string, lens_mark, Kind::count, "the mark within 1 % of the ratio, else the two around it", "kit", "mark on the lens", nullptr);
NORMA_FACT(Share, ratio_shortfall, Kind::share, "1 - field / field asked for", "geometry", "field lost by the round ratio", nullptr);
NORMA_FACT(Magnification, lens_greatest, Kind::ratio, "", "kit", "largest image the lens gives", nullptr);
NORMA_FACT(Magnification, lens_least, Kind::ratio, "", "kit", "smallest image the lens gives", nullptr);
NORMA_FACT(std::string, camera_held, Kind::count, "", "norma's choice: level where the teeth fit, else upright", "camera held", nullptr);
NORMA_FACT(Length, field_width, Kind::length, "w / m", "geometry", "field, width", nullptr);
NORMA_FACT(Length, field_height, Kind::length, "h / m", "geometry", "field, height", nullptr);
NORMA_FACT(std::string, aim, Kind::count, "", "protocol, else the middle of what must show", "middle of the picture", nullptr);
NORMA_FACT(Length, needed_width, Kind::length, "twice the farther of left and right edge from the middle of the picture", "tooth sizes along the arch, projected on the picture", "width that must be in the picture", &question::fits_picture);
NORMA_FACT(Length, needed_height, Kind::length, "twice the farther of upper and lower edge from the middle of the picture", "tooth sizes along the arch, projected on the picture", "height that must be in the picture", nullptr);
NORMA_FACT(Length, spare_width, Kind::length, "field - needed", "arithmetic", "width to spare", nullptr);
NORMA_FACT(Length, spare_height, Kind::length, "field - needed", "arithmetic", "height to spare", nullptr);
NORMA_FACT(Magnification, ratio_in_reach, Kind::ratio, "the largest that fits, or the lens's", "", "largest ratio at which the teeth fit and that the lens has", nullptr);
NORMA_FACT(Magnification, ratio_in_reach_asked, Kind::ratio, "the same on the protocol's sensor", "ratio of the sensors", "the same, as the protocol would ask for it", nullptr);
NORMA_FACT(Magnification, ratio_that_fits, Kind::ratio, "min(w / needed width, h / needed height)", "geometry", "largest ratio at which the teeth fit", nullptr);
NORMA_FACT(Magnification, ratio_that_fits_asked, Kind::ratio, "the same on the protocol's sensor", "ratio of the sensors", "the same, as the protocol would ask for it", nullptr);

NORMA_FACT(Share, field_use, Kind::share, "the greater of needed width / field width and needed height / field height", "arithmetic", "share of the picture that what must show takes", nullptr);
NORMA_FACT(Share, field_use_least, Kind::share, "", "norma's choice, or the kit's limits", "share it takes at least, where the view has a ratio of its own", nullptr);
NORMA_FACT(int, views_with_ratio, Kind::count, "", "protocol", "views with this ratio", nullptr);
NORMA_FACT(Length, least_spare, Kind::length, "smaller of the widths and heights to spare, halved: on each side", "arithmetic", "room around what must show", nullptr);
NORMA_FACT(Length, least_spare_wanted, Kind::length, "", "norma's choice, or the kit's limits", "room that there should be", nullptr);
NORMA_FACT(Magnification, ratio_that_fits_other_hold, Kind::ratio, "min(h / needed width, w / needed height)", "geometry", "largest ratio at which the teeth fit with the camera held the other way", nullptr);
NORMA_FACT(std::string, shape_asked, Kind::count, "long side : short side", "protocol", "shape of the picture asked for", nullptr);
NORMA_FACT(std::string, shape_here, Kind::count, "long side : short side", "kit", "shape of the kit's picture", nullptr);
NORMA_FACT(Share, shape_apart, Kind::share, "one shape over the other, less 1", "arithmetic", "shapes differ by", nullptr);
NORMA_FACT(std::string, other_side_view, Kind::count, "", "protocol", "view of the other side", nullptr);
NORMA_FACT(std::string, other_side_differs, Kind::count, "", "protocol", "not alike there", nullptr);

// Distance
NORMA_FACT(Length, working_distance, Kind::length, "table of the lens, linear in 1/m", "kit, measured", "front of the lens to the teeth", &question::camera_distance);
NORMA_FACT(Length, least_distance, Kind::length, "", "protocol", "camera at least so far away", nullptr);
NORMA_FACT(Length, pupil_distance, Kind::length, "f (1/m + 1/P)", "thin-lens optics with pupils", "entrance pupil to the focus plane", nullptr);
NORMA_FACT(PupilRatio, pupil_ratio, Kind::count, "", "kit; 1 where it is not given", "pupil ratio", nullptr);
NORMA_FACT(Length, focal_length, Kind::length, "", "kit", "focal length", nullptr);
NORMA_FACT(Length, lens_clearance, Kind::length, "working distance - what stands out beyond the lens", "kit, measured", "room between lens or lamp and the teeth", nullptr);
NORMA_FACT(Length, stands_out, Kind::length, "", "kit", "lamp stands out beyond the lens", nullptr);
NORMA_FACT(Length, ring_radius, Kind::length, "", "kit", "radius of the ring", nullptr);

// Where the camera looks from
NORMA_FACT(Angle, azimuth, Kind::angle, "", "protocol", "camera from the midline, + to the patient's right", nullptr);
NORMA_FACT(Angle, elevation, Kind::angle, "square to the arch for a view of biting surfaces", "protocol, or norma's choice", "camera or its mirror image above the biting plane", nullptr);
NORMA_FACT(Angle, roll, Kind::angle, "", "protocol", "camera or its mirror image turned about its axis", nullptr);

// Sharpness
NORMA_FACT(Length, allowed_blur, Kind::fine_length, "0.030 mm on 36 x 24 mm, by the diagonal elsewhere", "convention of depth-of-field tables", "blur allowed on the sensor", nullptr);
NORMA_FACT(std::string, focus, Kind::count, "", "protocol, else the middle of the depth", "focus", nullptr);
NORMA_FACT(Length, near_needed, Kind::length, "along the camera's axis, from the focus plane to the nearest point", "tooth sizes along the arch", "depth in front of the focus that must be sharp", &question::teeth_sharp);
NORMA_FACT(Length, far_needed, Kind::length, "along the camera's axis, from the focus plane to the farthest point", "tooth sizes along the arch", "depth behind the focus that must be sharp", nullptr);
NORMA_FACT(FNumber, widest_allowed, Kind::f_number, "", "protocol and lens", "widest aperture allowed", nullptr);
NORMA_FACT(FNumber, narrowest_allowed, Kind::f_number, "", "protocol and lens", "narrowest aperture allowed", nullptr);
NORMA_FACT(FNumber, lens_narrowest, Kind::f_number, "", "kit", "narrowest aperture of the lens", nullptr);
NORMA_FACT(std::string, aperture_asked, Kind::count, "", "protocol", "apertures asked for", nullptr);
NORMA_FACT(std::string, aperture_reach, Kind::count, "", "kit", "apertures of the lens", nullptr);
NORMA_FACT(FNumber, aperture_for_flash, Kind::f_number, "N 2^(light too much at least power / 2)", "exposure", "aperture from which on the flash is not too bright", nullptr);
NORMA_FACT(FNumber, aperture_needed, Kind::f_number, "smallest N whose depth N c (1 + m/P) / (m^2 (1 +- N c/(m f))) holds the teeth", "geometrical optics with pupils", "aperture that holds the named teeth", nullptr);
NORMA_FACT(FNumber, aperture, Kind::f_number, "the first mark of the range that holds the named teeth", "norma's choice", "aperture to set", &question::aperture_to_set);
NORMA_FACT(Length, near_depth, Kind::length, "N c (1 + m/P) / (m^2 (1 + N c/(m f)))", "geometrical optics", "sharp in front of the focus", nullptr);
NORMA_FACT(Length, far_depth, Kind::length, "N c (1 + m/P) / (m^2 (1 - N c/(m f)))", "geometrical optics", "sharp behind the focus", nullptr);
NORMA_FACT(FNumber, effective_f_number, Kind::f_number, "N (1 + m/P)", "bellows factor", "effective f-number", nullptr);
NORMA_FACT(Length, diffraction_blur, Kind::fine_length, "1.03 x 550 nm x N_eff", "Airy pattern, full width at half maximum", "blur by diffraction on the sensor", nullptr);
NORMA_FACT(Length, depth_with_diffraction, Kind::length, "2 N_eff sqrt(c^2 - (k lambda N_eff)^2) / m^2", "defocus and diffraction in quadrature", "sharp depth with diffraction counted in", nullptr);
NORMA_FACT(FNumber, sharpest_aperture, Kind::f_number, "N_eff = c / (sqrt 2 k lambda)", "maximum of the depth with diffraction", "aperture of the greatest depth with diffraction counted in", nullptr);
NORMA_FACT(Magnification, ratio_for_depth, Kind::ratio, "largest m at which the narrowest aperture allowed holds the named teeth", "geometrical optics, solved for m", "largest ratio at which the named teeth are sharp", nullptr);
NORMA_FACT(Magnification, ratio_for_depth_asked, Kind::ratio, "the same on the protocol's sensor", "ratio of the sensors", "the same, as the protocol would ask for it", nullptr);
NORMA_FACT(std::string, teeth_held, Kind::count, "", "geometrical optics, tooth by tooth", "named teeth that the narrowest aperture allowed holds", nullptr);
NORMA_FACT(std::string, better_focus, Kind::count, "", "geometrical optics", "focus with which the range would do", nullptr);
NORMA_FACT(Length, focus_off, Kind::length, "along the camera's axis, from the focus plane to the nearest of what must be sharp", "tooth sizes along the arch", "focus plane lies outside of what must be sharp, by", nullptr);

// Light
NORMA_FACT(std::string, lamp, Kind::count, "", "protocol, else the kit's first lamp", "lamp", &question::light_falls);
NORMA_FACT(std::string, lamp_side, Kind::count, "", "kit and how the camera is held", "lamp is on the side of", nullptr);
NORMA_FACT(Length, lamp_distance, Kind::length, "working distance + lamp behind the front of the lens", "geometry", "lamp to the teeth", nullptr);
NORMA_FACT(IsoSpeed, iso, Kind::iso, "", "protocol", "ISO", nullptr);
NORMA_FACT(Time, shutter, Kind::time, "", "protocol", "shutter", nullptr);
NORMA_FACT(Stops, bellows_loss, Kind::stops, "2 log2(1 + m/P)", "bellows factor", "light lost by the close-up setting", nullptr);
NORMA_FACT(std::string, exposure_reference, Kind::count, "", "protocol", "as bright as", nullptr);
NORMA_FACT(Stops, offset_aperture, Kind::stops, "2 log2(N / N_ref)", "exposure", "more light for the aperture", nullptr);
NORMA_FACT(Stops, offset_iso, Kind::stops, "log2(S_ref / S)", "exposure", "more light for the ISO", nullptr);
NORMA_FACT(Stops, offset_bellows, Kind::stops, "2 log2(B / B_ref), B = 1 + m/P", "bellows factor", "more light for the close-up setting", nullptr);
NORMA_FACT(Stops, offset_distance, Kind::stops, "2 log2(d / d_ref); a ring close up: by d^2/(d^2+R^2)^2", "inverse square; ring of radius R", "more light for the lamp's distance", nullptr);
NORMA_FACT(Stops, offset_mirror, Kind::stops, "loss of the mirror", "kit, measured", "more light for the mirror", nullptr);
NORMA_FACT(Stops, offset, Kind::stops, "sum of its parts", "exposure", "more light than the view it is to match", &question::exposure_differs);
NORMA_FACT(Stops, offset_spread, Kind::stops, "root of the sum of the squares of both mirrors' spreads", "kit, measured", "how far that may be off", nullptr);
NORMA_FACT(Stops, stated_offset, Kind::stops, "", "protocol", "more light by the protocol", nullptr);
NORMA_FACT(Stops, offset_apart, Kind::stops, "stated - worked out", "exposure", "protocol's number less the one worked out", nullptr);
NORMA_FACT(Stops, offset_tolerance, Kind::stops, "1/3 stop and the spread of the mirror's loss", "a third of a stop is the step of cameras; norma's choice", "difference that does not matter", nullptr);
NORMA_FACT(Stops, power_spread, Kind::stops, "spread of the mirror's loss", "kit, measured", "how far the power may be off", nullptr);
NORMA_FACT(Power, power_needed, Kind::power, "p0 2^-(sum of the parts from the reference shot)", "exposure; or guide number: N_eff d = GN sqrt(S/100)", "flash power needed", &question::flash_enough);
NORMA_FACT(Power, power, Kind::power, "to the next third of a stop from full power, a tie goes to more light", "exposure", "flash power to set", nullptr);
NORMA_FACT(IsoSpeed, iso_that_does, Kind::iso, "S 2^shortfall, up to the next mark of the ISO scale", "exposure", "ISO at which the flash would do", nullptr);
NORMA_FACT(Stops, shortfall, Kind::stops, "log2(power needed)", "exposure", "light missing at full power", nullptr);
NORMA_FACT(Stops, excess, Kind::stops, "log2(least power / power needed)", "exposure", "light too much at least power", nullptr);
NORMA_FACT(Illuminance, room_light, Kind::illuminance, "", "kit, measured", "room's light at the teeth", &question::room_light);
NORMA_FACT(Stops, room_light_under, Kind::stops, "log2(C N_eff^2 / (S E t)), C = 250 lx s", "ISO 2720", "room's light lies under a right exposure by", nullptr);
NORMA_FACT(Stops, room_light_limit, Kind::stops, "", "norma's choice, or the kit's limits", "it should lie under it by", nullptr);
NORMA_FACT(Time, shortest_shutter, Kind::time, "", "kit", "shortest shutter the flash works with", &question::shutter_open);
NORMA_FACT(Time, light_time, Kind::time, "flash duration; a steady lamp: the shutter", "kit, protocol", "light falls for", &question::movement);
NORMA_FACT(Length, movement, Kind::length, "", "norma's choice, or the kit's limits", "patient and camera move in a second by", nullptr);
NORMA_FACT(Length, movement_blur, Kind::fine_length, "v t m", "geometry", "blur by movement on the sensor", nullptr);
NORMA_FACT(int, reference_age, Kind::count, "whole months since the shot", "calendar", "months since the lamp's reference shot", nullptr);
NORMA_FACT(int, reference_age_limit, Kind::count, "", "norma's choice, or the kit's limits", "months after which it is taken again", nullptr);
NORMA_FACT(std::string, lamp_turned, Kind::count, "the lamp rides on the camera", "kit and protocol", "camera turned over, the lamp is at the", nullptr);

// What is seen of each tooth
NORMA_FACT(std::string, teeth_seen, Kind::count, "straight ways from 5 x 5 points of each surface to the lens", "model of the mouth", "surfaces that must show and are seen", nullptr);
NORMA_FACT(std::string, teeth_hidden, Kind::count, "less than half of what is turned to the lens is seen", "model of the mouth", "surfaces that must show and are hidden", nullptr);
NORMA_FACT(std::string, hidden_by, Kind::count, "what stands in most of the ways", "model of the mouth", "hidden by", nullptr);
NORMA_FACT(Angle, turned_limit, Kind::angle, "", "protocol, else norma's choice", "a surface counts as shown if it is turned at most by", nullptr);
NORMA_FACT(std::string, teeth_turned, Kind::count, "arc cosine of the share of its size with which it appears", "model of the mouth", "surfaces that are turned farther from the lens", nullptr);
NORMA_FACT(Angle, most_turned, Kind::angle, "arc cosine of the share of its size with which it appears", "model of the mouth", "surface turned farthest, by", nullptr);
NORMA_FACT(std::string, hidden_farther_in, Kind::count, "corner of the mouth 5 mm nearer to the midline and 5 mm less far back", "model of the mouth", "with the corner of the mouth 5 mm further in, hidden", nullptr);
NORMA_FACT(std::string, azimuth_not_sharp, Kind::count, "", "model of the mouth", "what must be sharp, from there", nullptr);
NORMA_FACT(Angle, azimuth_that_shows, Kind::angle, "the nearest angle, in steps of 5 degrees from the one given, from which all are seen; of those the first from which all are sharp, where there is one", "model of the mouth", "camera from the midline, so that all are seen", nullptr);
NORMA_FACT(std::string, seen_with_firm_pull, Kind::count, "", "model of the mouth", "with a firm pull", nullptr);

NORMA_FACT(Length, margin_left, Kind::length, "from what must show to the frame's edge, in the focus plane; below 0 it is cut", "central projection", "room at the left of the picture", nullptr);
NORMA_FACT(Length, margin_right, Kind::length, "from what must show to the frame's edge, in the focus plane; below 0 it is cut", "central projection", "room at the right of the picture", nullptr);
NORMA_FACT(Length, margin_top, Kind::length, "from what must show to the frame's edge, in the focus plane; below 0 it is cut", "central projection", "room at the top of the picture", nullptr);
NORMA_FACT(Length, margin_bottom, Kind::length, "from what must show to the frame's edge, in the focus plane; below 0 it is cut", "central projection", "room at the bottom of the picture", nullptr);
NORMA_FACT(std::string, teeth_cut, Kind::count, "a point of the surface falls outside of the frame", "central projection", "surfaces that the frame cuts", nullptr);
NORMA_FACT(Angle, cant, Kind::angle, "between the picture's side and the line through the farthest named teeth of the same kind on both sides", "central projection", "teeth lie askew by", nullptr);
NORMA_FACT(Share, asymmetry, Kind::share, "(right - left) / (right + left), distances of that pair from the midline of the teeth in the picture", "central projection", "right side larger than left by", nullptr);
NORMA_FACT(Length, bow, Kind::length, "the front teeth's edges over that line, in the focus plane", "central projection", "front teeth over the line of the back ones by", nullptr);
NORMA_FACT(Length, corner_side, Kind::length, "", "kit, else assumed by the pull on the retractor", "corner of the mouth, from the midline", nullptr);
NORMA_FACT(Length, corner_back, Kind::length, "", "kit, else assumed by the pull on the retractor", "corner of the mouth, behind the incisors", nullptr);
NORMA_FACT(Length, lamp_distance_to_aim, Kind::length, "working distance + lamp behind the front of the lens", "geometry", "lamp to the middle of the picture", nullptr);
NORMA_FACT(std::string, teeth_in_shadow, Kind::count, "less than nine tenths of what is seen is lit by half of the lamp or more", "model of the mouth", "surfaces that must show, are seen, and lie in shadow", nullptr);
NORMA_FACT(std::string, shaded_by, Kind::count, "what stands in most of the lamp's ways", "model of the mouth", "the shadow is thrown by", nullptr);
NORMA_FACT(std::string, in_shadow_other_side, Kind::count, "", "model of the mouth", "with the lamp on the other side of the lens, in shadow", nullptr);
NORMA_FACT(Stops, light_evenness, Kind::stops, "log2(most / least), each tooth the mean of cos / d^2 over what is seen", "inverse square and cosine laws, model of the mouth", "brightest tooth against darkest", nullptr);
NORMA_FACT(Length, opening_for_mirror, Kind::length, "the least opening, in steps of 1 mm, from which on the mirror clears the other jaw", "model of the mouth", "opening that the mirror needs", nullptr);
NORMA_FACT(Length, mirror_at_no_opening, Kind::length, "the widest opening that was tried", "model of the mouth", "mirror does not clear the other jaw, open by up to", nullptr);
NORMA_FACT(Angle, mirror_angle_that_fits, Kind::angle, "the nearest angle below, in steps of 5 degrees, at which the mirror clears the teeth and all are seen", "model of the mouth", "mirror opened so that it fits", nullptr);
NORMA_FACT(Length, mirror_moved, Kind::length, "as little as lays it over all that must show", "model of the mouth", "mirror over the teeth of one side, moved aside by", nullptr);
NORMA_FACT(std::string, mirror_moved_to, Kind::count, "", "model of the mouth", "it is moved to the patient's", nullptr);
NORMA_FACT(Length, mirror_at_corners, Kind::length, "its width where it passes between the corners of the mouth; moved aside, twice that more", "geometry", "mirror between the corners of the mouth", nullptr);
NORMA_FACT(Length, between_corners, Kind::length, "", "assumed, by the pull on the retractors", "corners of the mouth apart", nullptr);
NORMA_FACT(Length, mirror_at_corner, Kind::length, "its distance from the midline, as far back as the corner of the mouth, or at the end next to there", "geometry", "mirror in the cheek holds the corner of the mouth from the midline by", nullptr);
NORMA_FACT(Length, corner_by_mirror, Kind::length, "", "kit", "a mirror in the cheek may hold it from the midline by", nullptr);
NORMA_FACT(Angle, mirror_from_midline_with_room, Kind::angle, "searched in steps of 2.5 degrees: where the corner of the mouth lets it, the least at which most is seen", "model of the mouth", "mirror in the cheek has room opened by", nullptr);
NORMA_FACT(std::string, seen_with_room, Kind::count, "", "model of the mouth", "surfaces that are seen with the mirror opened so", nullptr);
NORMA_FACT(std::string, glare_at, Kind::count, "law of reflection at the blade, inside the frame, nothing in between", "model of the mouth", "polished blade that sends the lamp to the lens", nullptr);
NORMA_FACT(std::string, plastic_glint_at, Kind::count, "law of reflection at the blade, inside the frame, nothing in between", "model of the mouth", "clear plastic blade that sends some of the lamp to the lens", nullptr);
NORMA_FACT(std::string, lamp_in_mirror_at, Kind::count, "law of reflection at the mirror, inside outline and frame, nothing in between", "model of the mouth", "the mirror shows the lamp in the picture's", nullptr);
NORMA_FACT(Angle, mirror_angle_without_lamp, Kind::angle, "the nearest angle, in steps of 5 degrees from the one given, at which it does not and all are seen", "model of the mouth", "mirror opened so that it does not show the lamp", nullptr);
NORMA_FACT(std::string, smaller_mirror, Kind::count, "the narrowest of the kit in which all are seen", "kit and model of the mouth", "smaller mirror of the kit that shows all", nullptr);
NORMA_FACT(Angle, direct_azimuth, Kind::angle, "the first angle, in steps of 5 degrees from 30, from which all are seen without a mirror, turned by 45 degrees at most", "model of the mouth", "camera without a mirror, from the midline, so that all are seen", nullptr);
NORMA_FACT(Angle, glare_incidence, Kind::angle, "", "model of the mouth", "angle of the light on that blade", nullptr);
NORMA_FACT(std::string, mirror_that_shows, Kind::count, "", "kit and model of the mouth", "mirror of the kit in which all are seen", nullptr);
NORMA_FACT(Angle, mirror_from_midline, Kind::angle, "searched in steps of 2.5 degrees: the least at which most is seen", "model of the mouth", "mirror between cheek and teeth opened from the midline's direction", nullptr);
NORMA_FACT(Length, mirror_behind_teeth, Kind::length, "searched in steps of 2 mm from half its width: the first place that shows most", "model of the mouth", "middle of the round mirror behind the teeth", nullptr);
NORMA_FACT(Angle, camera_below, Kind::angle, "searched in steps of 10 degrees behind front teeth, of 20 beside back teeth", "model of the mouth", "camera off the biting plane, looking into the mirror (under it for upper teeth, over it for lower ones)", nullptr);
NORMA_FACT(Length, mirror_off_teeth, Kind::length, "searched in steps of 2 mm from 6: the nearest place clear of teeth and gum", "model of the mouth", "mirror from the middle of what is shown", nullptr);
NORMA_FACT(Angle, mirror_rise, Kind::angle, "searched in steps of 10 degrees: the most level place clear of teeth and gum", "model of the mouth", "mirror leaves the mouth away from the jaw by", nullptr);
NORMA_FACT(std::string, mirror_no_place, Kind::count, "searched: camera from the front and to either side, mirror level to steep, 6 to 24 mm from the teeth", "model of the mouth", "mirror finds no place clear of teeth and gum", nullptr);
NORMA_FACT(Length, mirror_width_that_fits, Kind::length, "the first width, nearest to the one of the kit in steps of 2 mm, at which a mirror of its shape shows all", "model of the mouth", "mirror width that goes in and shows all", nullptr);
NORMA_FACT(Angle, camera_turn, Kind::angle, "law of reflection: the picture lies level", "model of the mouth", "camera itself turned about its axis, + anticlockwise for who holds it", nullptr);
NORMA_FACT(Angle, camera_azimuth, Kind::angle, "law of reflection", "model of the mouth", "camera that looks into the mirror, from the midline", nullptr);
NORMA_FACT(std::string, patient, Kind::count, "", "published sizes, the kit's own in their place", "whose mouth is modelled", nullptr);
NORMA_FACT(Length, mouth_opening, Kind::length, "", "protocol, else kit, else the group's mean greatest opening", "mouth is open by", nullptr);
NORMA_FACT(std::string, teeth_beside_mirror, Kind::count, "the mirror ends before it shows the share of what is turned to the lens that must lie in it", "model of the mouth", "surfaces that must show and lie beside the mirror", nullptr);
NORMA_FACT(Angle, mirror_angle_that_shows, Kind::angle, "the nearest angle, in steps of 5 degrees from the one given, at which all are seen", "model of the mouth", "mirror opened so that all are seen", nullptr);
NORMA_FACT(std::string, fallback_against_first, Kind::count, "every surface that must show is among those of `or else show`", "protocol", "second choice against the first: it asks for", nullptr);
NORMA_FACT(std::string, fallback_not_seen, Kind::count, "of `or else show`, in the place of what must show: hidden, turned away or beside the mirror", "model of the mouth", "surfaces of the second choice that are not seen", nullptr);
NORMA_FACT(std::string, fallback_of_other_face, Kind::count, "facial where any is named, else biting, else lingual", "protocol", "`or else show` names other surfaces than those that the view is about", nullptr);
NORMA_FACT(std::string, fallback_cut, Kind::count, "of `or else show`, in the place of what must show: beyond the picture's edge", "model of the mouth", "surfaces of the second choice that the picture's edge cuts", nullptr);
NORMA_FACT(std::string, fallback_without_room, Kind::count, "`or else show` in the place of what must show", "model of the mouth", "mirror that has no room for the second choice", nullptr);
NORMA_FACT(std::string, fallback_seen, Kind::count, "`or else show` in the place of what must show", "model of the mouth", "what `or else show` names: seen", nullptr);
NORMA_FACT(Length, mirror_width, Kind::length, "", "kit", "width of the mirror", nullptr);
NORMA_FACT(Length, mirror_length_that_shows, Kind::length, "where no width does: the first length, in steps of 2 mm from the one of the kit, in which all are seen", "model of the mouth", "mirror length that would show all", nullptr);
NORMA_FACT(Length, mirror_width_that_shows, Kind::length, "the first width, in steps of 2 mm from the one of the kit, in which all are seen in a mirror of its shape", "model of the mouth", "mirror width that would show all", nullptr);
NORMA_FACT(std::string, wider_mirror_without_room, Kind::count, "its width between the corners of the mouth against how far they are apart", "model of the mouth", "a mirror so wide has no room between", nullptr);

// Mirror
NORMA_FACT(IsoSpeed, least_iso, Kind::count, "", "kit", "least ISO of the camera", nullptr);
NORMA_FACT(IsoSpeed, greatest_iso, Kind::count, "", "kit", "greatest ISO of the camera", nullptr);
NORMA_FACT(std::string, mirror_side, Kind::count, "", "protocol", "mirror on the patient's", nullptr);
NORMA_FACT(std::string, teeth_side, Kind::count, "", "protocol", "what must show is on the patient's", nullptr);
NORMA_FACT(std::string, mirror, Kind::count, "the smallest of the kit that does", "kit and norma's choice", "mirror", nullptr);
NORMA_FACT(Angle, mirror_angle, Kind::angle, "45 degrees unless given", "common practice; draft ANSI/ADA 1100", "mirror opened from the biting plane", nullptr);
NORMA_FACT(Length, mirror_width_needed, Kind::length, "arch width where its rays cross the mirror", "straight rays to the pupil, mirror behind the last tooth", "mirror width needed", nullptr);
NORMA_FACT(Length, mirror_length_needed, Kind::length, "from behind the last tooth to in front of the first", "straight rays to the pupil, mirror behind the last tooth", "mirror length needed", nullptr);
NORMA_FACT(Stops, mirror_loss, Kind::stops, "grey card in the mirror; or -log2(R^2), R of one pass", "kit, measured", "light the mirror takes from the picture", &question::mirror_costs);
NORMA_FACT(Stops, mirror_loss_spread, Kind::stops, "", "kit, measured", "how far the mirror's loss may be off", nullptr);
NORMA_FACT(Stops, mirror_loss_spread_limit, Kind::stops, "", "a third of a stop is the step of cameras; norma's choice", "as far as it may be off", nullptr);
NORMA_FACT(int, grey_cards_used, Kind::count, "", "kit, measured", "pairs of grey cards that the loss rests on", nullptr);
NORMA_FACT(int, grey_cards_clipped, Kind::count, "a value at or below 5 or at or above 250 of 255", "norma's choice", "pairs too dark or too bright", nullptr);
NORMA_FACT(int, grey_cards_outliers, Kind::count, "more than 3.5 robust standard deviations from the median", "Iglewicz and Hoaglin 1993 (from memory)", "pairs far from the others", nullptr);
NORMA_FACT(std::string, grey_cards_left_out, Kind::count, "", "kit, measured", "pairs left out, by their number", nullptr);
NORMA_FACT(int, grey_cards_least, Kind::count, "", "norma's choice", "pairs that there should be", nullptr);
NORMA_FACT(int, mirror_loss_age, Kind::count, "whole months since it was measured", "calendar", "months since the loss was measured", nullptr);
NORMA_FACT(int, mirror_loss_age_limit, Kind::count, "", "assumed: twelve months", "months after which the loss is measured again", nullptr);
NORMA_FACT(std::string, mirror_surface, Kind::count, "", "kit", "mirror's silver is on the", &question::second_image);
NORMA_FACT(Length, ghost, Kind::length, "t sin 2a / sqrt(n^2 - sin^2 a)", "plane-parallel plate", "second image lies beside the first by", nullptr);
NORMA_FACT(Length, ghost_on_sensor, Kind::fine_length, "m d", "geometry", "second image on the sensor", nullptr);
NORMA_FACT(Share, ghost_strength, Kind::share, "Fresnel, mean of both polarisations", "Fresnel's equations", "strength of the second image", nullptr);

// Instruments and people
NORMA_FACT(std::string, right_retractor, Kind::count, "", "kit and norma's choice", "retractor on the patient's right", nullptr);
NORMA_FACT(std::string, left_retractor, Kind::count, "", "kit and norma's choice", "retractor on the patient's left", nullptr);
NORMA_FACT(std::string, guide, Kind::count, "", "kit", "distance guide", &question::kit_has_guide);
NORMA_FACT(Length, guide_keeps, Kind::length, "", "kit, measured", "distance that the guide keeps", nullptr);
NORMA_FACT(Length, guide_off, Kind::length, "|kept - working distance|", "arithmetic", "distance that the guide keeps differs from the lens's by", nullptr);
NORMA_FACT(Length, guide_tolerance, Kind::length, "5 % of the working distance", "norma's choice", "difference that does not matter", nullptr);
NORMA_FACT(std::string, frame, Kind::count, "", "kit", "frame", &question::kit_has_frame);
NORMA_FACT(std::string, frame_asked, Kind::count, "", "protocol", "frame asked for", nullptr);
NORMA_FACT(Length, frame_spare, Kind::length, "smaller of field width - frame width and field height - frame height", "arithmetic", "field reaches beyond the frame by", nullptr);
NORMA_FACT(std::string, retractor_finish, Kind::count, "", "kit", "finish of the retractors", &question::retractors_glare);
NORMA_FACT(int, frosting_age, Kind::count, "whole months since it was frosted", "calendar", "months since the retractors were frosted", &question::frosting_holds);
NORMA_FACT(int, frosting_age_limit, Kind::count, "", "common practice, or the kit's limits", "months after which the frosting is looked at", nullptr);
NORMA_FACT(int, frosting_cycles, Kind::count, "", "kit, counted", "sterilising cycles since the retractors were frosted", nullptr);
NORMA_FACT(int, frosting_cycles_limit, Kind::count, "", "kit", "cycles that the frosting lasts", nullptr);
NORMA_FACT(std::string, frosting_of, Kind::count, "", "kit", "frosting that is due first", nullptr);
NORMA_FACT(Time, processing, Kind::time, "", "kit", "a print takes", nullptr);
NORMA_FACT(Time, wait_after, Kind::time, "", "protocol", "wait after the picture", nullptr);
NORMA_FACT(int, patient_hands_needed, Kind::count, "one for each thing held", "common practice", "hands the patient needs", nullptr);
NORMA_FACT(int, assistant_hands_needed, Kind::count, "one for each thing held", "common practice", "hands the assistant needs", nullptr);
NORMA_FACT(int, operator_hands_needed, Kind::count, "one for each thing held, besides the camera", "common practice", "hands the operator needs besides the camera", nullptr);
NORMA_FACT(int, operator_hands, Kind::count, "", "both are on the camera (common practice)", "hands the operator has besides the camera", nullptr);
NORMA_FACT(std::string, held_things, Kind::count, "", "protocol", "who holds what", nullptr);
NORMA_FACT(std::string, held_by_operator, Kind::count, "", "protocol", "the operator is to hold", nullptr);
NORMA_FACT(int, patient_hands, Kind::count, "", "kit; 2 where it is not given", "hands the patient has", nullptr);
NORMA_FACT(int, assistant_hands, Kind::count, "", "kit; 2 where it is not given", "hands the assistant has", nullptr);

// The picture's orientation
NORMA_FACT(std::string, orientation_shot, Kind::count, "camera axes, by the mirror where there is one", "DICOM PS3.3 C.7.6.1.1.1", "orientation as shot (row, column)", nullptr);
NORMA_FACT(std::string, mirrored, Kind::count, "row x column against the viewing direction", "DICOM PS3.3 C.7.6.1.1.1", "as shot, the picture is", nullptr);
NORMA_FACT(std::string, orientation_wanted, Kind::count, "", "protocol", "orientation wanted (row, column)", &question::picture_turned);
NORMA_FACT(std::string, turn, Kind::count, "the one flip or turn that leads from one to the other", "geometry", "what to do with the picture", nullptr);
NORMA_FACT(std::string, orientation_of_code, Kind::count, "", "draft ANSI/ADA 1100 (2025), IHE Dental profile draft", "orientation of the view code (row, column)", nullptr);

NORMA_FACT(std::string, code_fits, Kind::count, "mirror, side, jaw and wanted picture against the code's term", "draft ANSI/ADA 1100 (2025)", "view code fits the view", nullptr);
NORMA_FACT(std::string, code_that_fits, Kind::count, "", "draft ANSI/ADA 1100 (2025)", "code of this view", nullptr);

// What decides
NORMA_FACT(std::string, tightest, Kind::count, "the one with the least reserve, as a share of its limit", "arithmetic", "tightest of what was checked", nullptr);
NORMA_FACT(Share, tightest_reserve, Kind::share, "1 - needed / there is", "arithmetic", "its reserve", nullptr);
NORMA_FACT(std::string, hangs_on, Kind::count, "inputs followed back to where the uncertainty comes in", "", "it hangs most on", nullptr);

// The protocol as a whole, and its series
NORMA_FACT(int, days_since_review, Kind::count, "calendar days", "protocol", "days since the protocol was to be reviewed", nullptr);
NORMA_FACT(int, insertions, Kind::count, "pieces that were not in the mouth in the view before, counted over the series", "protocol", "times something goes into the mouth", nullptr);
NORMA_FACT(int, insertions_limit, Kind::count, "", "norma's choice, or the kit's limits", "times that are told", nullptr);
NORMA_FACT(Minutes, minutes_in_mouth, Kind::count, "minutes for each view of the mouth and each insertion, and the waits without rest", "norma's choice of minutes, or the kit's limits", "minutes that the mouth is kept open or retracted", nullptr);
NORMA_FACT(Minutes, minutes_limit, Kind::count, "", "norma's choice, or the kit's limits", "minutes that are told", nullptr);
NORMA_FACT(std::string, goes_in_again, Kind::count, "a piece that comes out and is put in again", "protocol", "goes in a second time", nullptr);
NORMA_FACT(std::string, again_in_view, Kind::count, "", "protocol", "goes in again in view", nullptr);

#undef NORMA_FACT
// clang-format on

} // namespace norma::plan::fact
