//! Planetary sets: a sun, planets on a carrier, and a ring round them.

use quantity::*;

/// What can be held, driven or taken off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Member {
    Sun,
    Ring,
    Carrier,
}

/// A simple set, by its teeth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Set {
    pub sun_teeth: Ratio,
    pub ring_teeth: Ratio,
}

/// How fast each member turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Speeds {
    pub sun: AngularVelocity,
    pub ring: AngularVelocity,
    pub carrier: AngularVelocity,
}

/// The member that is neither of two; nothing where they are the same.
#[must_use]
pub fn third(one: Member, other: Member) -> Option<Member> {
    use Member::{Carrier, Ring, Sun};
    match (one, other) {
        (Sun, Ring) | (Ring, Sun) => Some(Carrier),
        (Sun, Carrier) | (Carrier, Sun) => Some(Ring),
        (Ring, Carrier) | (Carrier, Ring) => Some(Sun),
        _ => None,
    }
}

impl Set {
    /// Share of a member in Willis' equation z_s·ω_s + z_r·ω_r − (z_s + z_r)·ω_c = 0.
    fn share(&self, of: Member) -> f64 {
        let (sun, ring) = (self.sun_teeth.si(), self.ring_teeth.si());
        match of {
            Member::Sun => sun,
            Member::Ring => ring,
            Member::Carrier => -(sun + ring),
        }
    }

    /// Speed in over speed out, by Willis: (ω_s − ω_c)/(ω_r − ω_c) = −z_r/z_s with the held member at rest.
    ///
    /// Inputs: member held; member driving, another one.
    /// Returns: ω_driving/ω_driven, negative where the driven member turns backward; nothing where both are the same member.
    /// Valid for: one planet between sun and ring, each in mesh with both.
    /// Source: Willis' equation, as in Shigley, Mechanical Engineering Design, ch. 13, published.
    #[must_use]
    pub fn ratio(&self, held: Member, driving: Member) -> Option<Ratio> {
        let driven = third(held, driving)?;
        Some(Ratio::from_si(-self.share(driven) / self.share(driving)))
    }

    /// Speeds of all three members.
    ///
    /// Inputs: member held; member driving and its speed (rad/s).
    /// Returns: rad/s; nothing where held and driving are the same member.
    /// Valid for: as [`Set::ratio`].
    /// Source: as [`Set::ratio`].
    #[must_use]
    pub fn speeds(&self, held: Member, driving: Member, speed: AngularVelocity) -> Option<Speeds> {
        let out = speed / self.ratio(held, driving)?;
        let of = |member: Member| {
            let turning = if member == driving { speed.si() } else { out.si() };
            AngularVelocity::from_si(if member == held { 0.0 } else { turning })
        };
        Some(Speeds { sun: of(Member::Sun), ring: of(Member::Ring), carrier: of(Member::Carrier) })
    }

    /// Speed of the planets about the machine, ω_c − (ω_s − ω_c)·z_s/z_p; on their pins they turn at it less ω_c.
    ///
    /// Inputs: speeds of the members (rad/s); teeth of a planet.
    /// Returns: rad/s.
    /// Valid for: as [`Set::ratio`].
    /// Source: as [`Set::ratio`].
    #[must_use]
    pub fn planet_speed(&self, speeds: Speeds, planet_teeth: Ratio) -> AngularVelocity {
        let rolling = (speeds.sun.si() - speeds.carrier.si()) * self.sun_teeth.si() / planet_teeth.si();
        AngularVelocity::from_si(speeds.carrier.si() - rolling)
    }

    /// Share of the power that goes through while the meshes alone lose: what rolls at the teeth is what is lost from, and
    /// part of the power goes round with the carrier without loss.
    ///
    /// Inputs: member held; member driving; share η₀ that goes through both meshes together with the carrier held.
    /// Returns: a plain number up to 1; nothing where held and driving are the same member.
    /// Valid for: η₀ above 0 up to 1, power from the driving to the driven member; bearings, seals and churned grease come on
    /// top.
    /// Source: rolling power, as in Müller, Epicyclic Drive Trains, and VDI 2157; from memory, with the closed forms below.
    #[must_use]
    pub fn efficiency(&self, held: Member, driving: Member, both_meshes: Ratio) -> Option<Ratio> {
        let driven = third(held, driving)?;
        let (into, out, still) = (self.share(driving).abs(), self.share(driven).abs(), self.share(held).abs());
        let eta = both_meshes.si();
        Some(Ratio::from_si(if held == Member::Carrier {
            eta
        } else if driving == Member::Carrier {
            // The held member gives the rolling power, and the driven one has what is left of it.
            into / (out + still / eta)
        } else {
            // The held member has what is left of the driving one's; the carrier takes both.
            (into + still * eta) / out
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Member::{Carrier, Ring, Sun};

    const WAYS: [(Member, Member); 6] =
        [(Ring, Sun), (Ring, Carrier), (Sun, Ring), (Sun, Carrier), (Carrier, Sun), (Carrier, Ring)];

    fn set(sun: f64, ring: f64) -> Set {
        Set { sun_teeth: Ratio::from_si(sun), ring_teeth: Ratio::from_si(ring) }
    }

    #[test]
    fn willis_holds_for_every_way_round() {
        for (held, driving) in WAYS {
            let speeds = set(18.0, 54.0).speeds(held, driving, AngularVelocity::from_si(90.0)).unwrap();
            let (sun, ring, carrier) = (speeds.sun.si(), speeds.ring.si(), speeds.carrier.si());
            assert!((18.0 * (sun - carrier) + 54.0 * (ring - carrier)).abs() < 1e-9, "{held:?} {driving:?}");
            let back = set(18.0, 54.0).ratio(held, third(held, driving).unwrap()).unwrap().si();
            let there = set(18.0, 54.0).ratio(held, driving).unwrap().si();
            assert!((there * back - 1.0).abs() < 1e-12);
        }
        assert!(
            set(18.0, 54.0).ratio(Sun, Sun).is_none()
                && set(18.0, 54.0).efficiency(Ring, Ring, Ratio::from_si(0.9)).is_none()
        );
    }

    #[test]
    fn losses_by_the_closed_forms() {
        let (i0, eta) = (-54.0 / 18.0, 0.94);
        let of = |held, driving| set(18.0, 54.0).efficiency(held, driving, Ratio::from_si(eta)).unwrap().si();
        for (held, driving, closed) in [
            (Ring, Sun, (1.0 - i0 * eta) / (1.0 - i0)),
            (Ring, Carrier, (1.0 - i0) / (1.0 - i0 / eta)),
            (Sun, Ring, (i0 - eta) / (i0 - 1.0)),
            (Sun, Carrier, (i0 - 1.0) / (i0 - 1.0 / eta)),
            (Carrier, Sun, eta),
        ] {
            assert!((of(held, driving) - closed).abs() < 1e-12, "{held:?} {driving:?} {}", of(held, driving));
        }
        for (held, driving) in WAYS {
            let perfect = set(20.0, 80.0).efficiency(held, driving, Ratio::from_si(1.0)).unwrap().si();
            assert!((perfect - 1.0).abs() < 1e-12 && of(held, driving) < 1.0);
        }
    }
}
