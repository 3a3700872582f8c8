//! How the coolant gets through an element: pressure lost, and heat passed to the wall.

use super::properties::Liquid;
use crate::at::At;
use crate::drive::outside;
use machine::{Channel, Found, Hose, Strainer, TestedDrop};
use physics::coolant::Properties;
use physics::heat::{film_coefficient, inside};
use physics::pipe::{self, bend_beyond_its_length, contraction_loss_number, expansion_loss_number};
use quantity::*;

/// The way through one element, read once.
#[derive(Debug, Clone)]
pub(super) enum Passage {
    /// Wide beside the hoses: reservoir, pump (whose rise is net) and thermostat housing.
    Open,
    Hose(Piece),
    Channel(Duct),
    Tested {
        drop: f64,
        flow: f64,
        density: f64,
        viscosity: f64,
    },
    Strainer {
        mesh: Length,
        open: Area,
    },
}

/// A piece of hose.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    bore: Length,
    length: Length,
    /// Loss number of its two ends, by what it meets there.
    ends: f64,
    /// Loss number of what sits in it and of its bends, and so many times the friction factor more.
    fittings: f64,
    of_friction: f64,
}

/// Channels side by side, each as long as the way from one end to the other.
#[derive(Debug, Clone)]
pub(super) struct Duct {
    /// Hydraulic; cross-section of one, and its wetted edge.
    diameter: Length,
    area: f64,
    edge: f64,
    length: Length,
    count: f64,
    /// Loss number of all bends and both mouths.
    fittings: f64,
    /// f·Re of its shape in smooth flow, over that of a round pipe.
    shape: f64,
    /// Settled Nusselt number of its shape in smooth flow.
    nusselt: f64,
}

/// Where smooth flow ends and swirling flow has settled.
const CALM: f64 = 2300.0;
const SWIRLING: f64 = 4000.0;

/// How much of the smooth flow's ways is left: all below 2300, none from 4000 on.
fn calm(reynolds: f64) -> f64 {
    ((SWIRLING - reynolds) / (SWIRLING - CALM)).clamp(0.0, 1.0)
}

/// Both mouths of a hose or channel: sharp, and the speed lost behind. Reservoir, barbs and housings are counted so.
const MOUTHS: f64 = pipe::ENTRANCE_SHARP + pipe::EXIT;

impl Passage {
    pub(super) fn channel(at: &At, channel: &Channel) -> Found<Self> {
        let (diameter, area, edge, shape, nusselt) = match at.try_get(&channel.bore) {
            Some(bore) => {
                let d = bore.si();
                let round = std::f64::consts::PI * d;
                (bore, 0.25 * round * d, round, 1.0, inside::LAMINAR_EVEN_TEMPERATURE)
            }
            None => {
                let (width, depth) = (at.need(&channel.width)?, at.need(&channel.depth)?);
                let aspect = (width / depth).si();
                let aspect = Ratio::from_si(aspect.min(1.0 / aspect));
                let shape = pipe::rectangular_friction(aspect).map_err(outside)? / 64.0;
                let nusselt = inside::rectangle_even_temperature(aspect).map_err(outside)?;
                let edge = 2.0 * (width.si() + depth.si());
                (pipe::hydraulic_diameter(width, depth), width.si() * depth.si(), edge, shape, nusselt)
            }
        };
        // Straight, and one, unless it is said.
        let turns = at.or_take(&channel.turns, Ratio::from_si(0.0), "0").si();
        let count = at.or_take(&channel.count, Ratio::from_si(1.0), "1").si().max(1.0);
        let bend = if turns > 0.0 { at.need(&at.assumed().channel_bend_loss)?.si() } else { 0.0 };
        Ok(Self::Channel(Duct {
            diameter,
            area,
            edge,
            length: at.need(&channel.length)?,
            count,
            fittings: MOUTHS + turns * bend,
            shape,
            nusselt,
        }))
    }

    pub(super) fn hose(at: &At, hose: &Hose) -> Found<Self> {
        let (bore, length) = (at.need(&hose.bore)?, at.need(&hose.length)?);
        let bends = match at.try_get(&hose.bends) {
            Some(bends) => bends.si(),
            None => {
                let usual = at.need(&at.assumed().hose_bends)? * length.si();
                at.or_take(&hose.bends, usual, "as many for each metre as most have").si()
            }
        };
        let radius = at.or_take(&hose.tightest_bend, 6.0 * bore, "six times the bore");
        // Tighter than a corner no hose bends; without a bore there is nothing to bend.
        let tight = (radius / bore).si().max(0.5);
        let (constant, of_friction) = bend_beyond_its_length(tight).map_err(outside)?;
        let sits_in_it = at.or_take(&hose.fittings, Ratio::from_si(0.0), "none").si();
        Ok(Self::Hose(Piece {
            bore,
            length,
            ends: MOUTHS,
            fittings: sits_in_it + bends * constant,
            of_friction: bends * of_friction,
        }))
    }

    /// Settles what the ends of a hose lose, by what stands before and behind it in the way of the same flow: a hose that goes on
    /// in another loses at a step of the bore alone.
    pub(super) fn meets(&mut self, before: Option<&Self>, behind: Option<&Self>) {
        let Self::Hose(piece) = self else { return };
        let bore = piece.bore.si();
        let other = |passage: Option<&Self>| match passage {
            Some(Self::Hose(other)) => Some(other.bore.si()),
            _ => None,
        };
        // Each step counts once, on the speed in the narrower of both.
        let enters = other(before).map(|wide| match bore < wide {
            true => contraction_loss_number(bore / wide).unwrap_or(pipe::ENTRANCE_SHARP),
            false => 0.0,
        });
        let leaves = other(behind).map(|wide| match bore < wide {
            true => expansion_loss_number(bore / wide).unwrap_or(pipe::EXIT),
            false => 0.0,
        });
        piece.ends = enters.unwrap_or(pipe::ENTRANCE_SHARP) + leaves.unwrap_or(pipe::EXIT);
    }

    pub(super) fn tested(at: &At, test: &TestedDrop) -> Found<Self> {
        let liquid = Liquid::read(at, at.machine().follow(&test.fluid))?;
        let then = liquid.at(at, at.need(&test.temperature)?)?;
        Ok(Self::Tested {
            drop: at.need(&test.pressure_drop)?.si(),
            flow: at.need(&test.flow)?.si(),
            density: then.density.si(),
            viscosity: then.viscosity.si(),
        })
    }

    /// `left` is the share of its openings that is not clogged.
    pub(super) fn strainer(at: &At, strainer: &Strainer, left: f64) -> Found<Self> {
        Ok(Self::Strainer { mesh: at.need(&strainer.mesh)?, open: at.need(&strainer.open_area)? * left })
    }

    /// Speed, (hydraulic) diameter and Reynolds number, where the way through is known.
    fn stream(&self, flow: f64, liquid: &Properties) -> Option<(Velocity, Length, f64)> {
        let (area, diameter) = match self {
            Self::Open | Self::Tested { .. } => return None,
            Self::Hose(piece) => (std::f64::consts::FRAC_PI_4 * piece.bore.si() * piece.bore.si(), piece.bore),
            Self::Channel(duct) => (duct.count * duct.area, duct.diameter),
            Self::Strainer { mesh, open } => (open.si(), *mesh),
        };
        let speed = Velocity::from_si(flow / area);
        Some((speed, diameter, pipe::reynolds(speed, diameter, liquid.kinematic_viscosity())))
    }

    /// Reynolds number; zero where the way through is not known.
    pub(super) fn reynolds(&self, flow: f64, liquid: &Properties) -> f64 {
        self.stream(flow, liquid).map_or(0.0, |(_, _, reynolds)| reynolds)
    }

    /// Pressure lost, Pa, and how much more for each m³/s: near enough to find a flow by.
    pub(super) fn loss(&self, flow: f64, liquid: &Properties) -> (f64, f64) {
        if let Self::Tested { drop, flow: then, density, viscosity } = self {
            // Half of a tested drop is taken to rise with viscosity and flow, half with density and the flow's square.
            // Common practice, no source: between a channel (all of the first) and a row of fittings (all of the second).
            let (smooth, rough) = (liquid.viscosity.si() / viscosity, liquid.density.si() / density);
            let share = flow / then;
            return (drop * 0.5 * share * (smooth + share * rough), drop * 0.5 / then * (smooth + 2.0 * share * rough));
        }
        let Some((speed, diameter, reynolds)) = self.stream(flow, liquid) else { return (0.0, 0.0) };
        let density = liquid.density;
        // Where hardly anything flows friction would overflow; its loss is nothing all the same.
        let (friction, exponent) = pipe::highest_friction(reynolds.max(1e-6), 0.0);
        let (friction, length, fittings) = match self {
            Self::Hose(piece) => (friction, piece.length + piece.of_friction * piece.bore, piece.ends + piece.fittings),
            Self::Channel(duct) => {
                let shape = 1.0 + calm(reynolds) * (duct.shape - 1.0);
                (friction * shape, duct.length, duct.fittings)
            }
            // Each opening is a pipe as long as it is wide. Common practice, no source.
            _ => (friction, diameter, MOUTHS),
        };
        let along = pipe::darcy_loss(friction, length, diameter, density, speed).si();
        let mouths = pipe::fitting_loss(fittings, density, speed).si();
        let slope = if flow > 0.0 { (along * (2.0 + exponent) + 2.0 * mouths) / flow } else { 0.0 };
        (along + mouths, slope)
    }

    /// Wetted wall, m², where it is known.
    pub(super) fn wetted(&self) -> Option<f64> {
        match self {
            Self::Channel(duct) => Some(duct.edge * duct.length.si() * duct.count),
            _ => None,
        }
    }

    /// What it holds, m³, where it is known.
    pub(super) fn volume(&self) -> f64 {
        match self {
            Self::Hose(piece) => std::f64::consts::FRAC_PI_4 * piece.bore.si() * piece.bore.si() * piece.length.si(),
            Self::Channel(duct) => duct.count * duct.area * duct.length.si(),
            Self::Open | Self::Tested { .. } | Self::Strainer { .. } => 0.0,
        }
    }

    /// Conductance between coolant and wall, W/K: known of hoses and channels. As if the coolant at the wall were no thinner
    /// or thicker.
    pub(super) fn film(&self, flow: f64, liquid: &Properties) -> Found<Option<f64>> {
        let Some((_, diameter, reynolds)) = self.stream(flow, liquid) else { return Ok(None) };
        let (length, settled, area) = match self {
            Self::Channel(duct) => (duct.length, duct.nusselt, self.wetted().unwrap_or(0.0)),
            Self::Hose(piece) => (
                piece.length,
                inside::LAMINAR_EVEN_TEMPERATURE,
                std::f64::consts::PI * piece.bore.si() * piece.length.si(),
            ),
            Self::Open | Self::Tested { .. } | Self::Strainer { .. } => return Ok(None),
        };
        let (prandtl, slim) = (liquid.prandtl(), (diameter / length).si());
        // Smooth by its own shape; between, a straight line, as of a round tube.
        let smooth = |reynolds: f64| inside::warming_up(settled, slim * reynolds * prandtl);
        let swirling = |reynolds: f64| inside::tube(reynolds, prandtl, slim, 0.0).map_err(outside);
        let share = calm(reynolds);
        // Thick cold coolant is outside the range of swirling flow, which does not matter here.
        let nusselt = match share {
            1.0 => smooth(reynolds),
            0.0 => swirling(reynolds)?,
            _ => share * smooth(CALM) + (1.0 - share) * swirling(SWIRLING)?,
        };
        Ok(Some(film_coefficient(nusselt, liquid.conductivity, diameter).si() * area))
    }

    /// Whether what its wall does to the coolant there counts: a hose's thin film is no more than a tenth of the way out.
    pub(super) fn minds_its_wall(&self) -> bool {
        matches!(self, Self::Channel(_))
    }
}
