//! `workshop.yaml` at the root of a repository of specs: what its owner requires of all machines in it.

use crate::named::Map;
use crate::reserve::Reserve;
use schemars::JsonSchema;
use serde::Deserialize;

/// What is required of every machine below the folder in which this file lies.
#[derive(Debug, Default, Deserialize, JsonSchema)]
pub struct Workshop {
    /// Required reserves in place of the rules' own, each under a name. One for a thing (`on`) counts before one for a rule,
    /// one for a rule before one for an area.
    pub reserves: Map<RequiredReserve>,
    pub profile: Option<Profile>,
    /// The verdict from which on a review refuses a machine; `--refuse` on the command line counts before it.
    pub refuse: Option<RefusalLevel>,
    /// What becomes of a finding that misses by less than its own guesses scatter; left out, it refuses like any other.
    pub guesses: Option<GuessPolicy>,
}

impl Workshop {
    /// From which verdict on a machine is refused: as asked on the command line, else as written here, else what fails.
    #[must_use]
    pub fn refusal(&self, asked: Option<RefusalLevel>) -> RefusalLevel {
        asked.or(self.refuse).unwrap_or(RefusalLevel::Fails)
    }
}

/// One required reserve. `rule`, `area` and `on` say what it is for; of several all must fit.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct RequiredReserve {
    /// The rule's name.
    pub rule: Option<String>,
    pub area: Option<AreaName>,
    /// The thing that it is for, as findings name it.
    pub on: Option<String>,
    pub reserve: Reserve,
    pub reason: String,
}

words! {
    /// A part of the rulebook.
    pub enum AreaName {
        Powertrain = "powertrain", Cooling = "cooling", Structure = "structure", Suspension = "suspension",
        WholeMachine = "whole_machine",
    }
}

words! {
    /// What kind of machine this workshop builds.
    pub enum Profile {
        /// what is cheap and meant to wear or give way is advice: it is told, and refuses no machine
        Sport = "sport",
        /// people count as near unless a spec says `people_near: no`, and a day that is over as a machine left outside
        Carrier = "carrier",
    }
}

words! {
    /// What a finding that rests on guesses does.
    pub enum GuessPolicy {
        /// it refuses the machine as any other
        Refuse = "refuse",
        /// it is told, and refuses no machine
        Advice = "advice",
    }
}

words! {
    /// From which verdict on a machine is refused.
    pub enum RefusalLevel {
        Fails = "fails",
        Thin = "thin",
        /// what fails or is thin, and all that could not be judged, in one case or in any
        Unjudged = "unjudged",
        Nothing = "nothing",
    }
}
