//! How the coolant gets through an element: pressure lost, and heat passed to the wall.

use super::properties::Liquid;
use crate::at::At;
use crate::drive::outside;
use machine::{Channel, Found, Strainer, TestedDrop};
use physics::coolant::Properties;
use physics::heat::{film_coefficient, inside};
use physics::pipe;
use quantity::*;

/// The way through one element, read once.
#[derive(Debug, Clone)]
pub(super) enum Passage {
    /// Wide beside the hoses: reservoir, pump (whose rise is net) and thermostat housing.
    Open,
    Hose {
        bore: Length,
        length: Length,
    },
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

/// Channels side by side, each as long as the way from one end to the other.
#[derive(Debug, Clone)]
pub(super) struct Duct {
    width: Length,
    depth: Length,
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
        let (width, depth) = (at.need(&channel.width)?, at.need(&channel.depth)?);
        let aspect = (width / depth).si();
        let aspect = Ratio::from_si(aspect.min(1.0 / aspect));
        // Straight, and one, unless it is said.
        let turns = at.or_take(&channel.turns, Ratio::from_si(0.0), "0").si();
        let count = at.or_take(&channel.count, Ratio::from_si(1.0), "1").si().max(1.0);
        let bend = if turns > 0.0 { at.need(&at.assumed().channel_bend_loss)?.si() } else { 0.0 };
        Ok(Self::Channel(Duct {
            width,
            depth,
            length: at.need(&channel.length)?,
            count,
            fittings: MOUTHS + turns * bend,
            shape: pipe::rectangular_friction(aspect).map_err(outside)? / 64.0,
            nusselt: inside::rectangle_even_temperature(aspect).map_err(outside)?,
        }))
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
            Self::Hose { bore, .. } => (std::f64::consts::FRAC_PI_4 * bore.si() * bore.si(), *bore),
            Self::Channel(duct) => {
                (duct.count * duct.width.si() * duct.depth.si(), pipe::hydraulic_diameter(duct.width, duct.depth))
            }
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
        let (friction, exponent) = pipe::friction_and_exponent(reynolds.max(1e-6), 0.0);
        let (friction, length, fittings) = match self {
            Self::Hose { length, .. } => (friction, *length, MOUTHS),
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
            Self::Channel(duct) => Some(2.0 * (duct.width.si() + duct.depth.si()) * duct.length.si() * duct.count),
            _ => None,
        }
    }

    /// What it holds, m³, where it is known.
    pub(super) fn volume(&self) -> f64 {
        match self {
            Self::Hose { bore, length } => std::f64::consts::FRAC_PI_4 * bore.si() * bore.si() * length.si(),
            Self::Channel(duct) => duct.count * duct.width.si() * duct.depth.si() * duct.length.si(),
            Self::Open | Self::Tested { .. } | Self::Strainer { .. } => 0.0,
        }
    }

    /// Conductance between coolant and wall, W/K: known of hoses and channels.
    pub(super) fn film(&self, flow: f64, liquid: &Properties) -> Found<Option<f64>> {
        let Some((_, diameter, reynolds)) = self.stream(flow, liquid) else { return Ok(None) };
        let (length, settled, area) = match self {
            Self::Channel(duct) => (duct.length, duct.nusselt, self.wetted().unwrap_or(0.0)),
            Self::Hose { bore, length } => {
                (*length, inside::LAMINAR_EVEN_TEMPERATURE, std::f64::consts::PI * bore.si() * length.si())
            }
            Self::Open | Self::Tested { .. } | Self::Strainer { .. } => return Ok(None),
        };
        let (prandtl, slim) = (liquid.prandtl(), (diameter / length).si());
        let round = if reynolds < CALM {
            // Thick cold coolant is outside the range of swirling flow, which does not matter here.
            inside::laminar(reynolds, prandtl, slim)
        } else {
            inside::tube(reynolds, prandtl, slim, 0.0).map_err(outside)?
        };
        // The warming-up length of a round tube on top of the settled value of the real shape.
        let nusselt = round + calm(reynolds) * (settled - inside::LAMINAR_EVEN_TEMPERATURE);
        Ok(Some(film_coefficient(nusselt, liquid.conductivity, diameter).si() * area))
    }
}
