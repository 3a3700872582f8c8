//! Cylindrical involute gears: shape, mesh, root, flank, heat and endurance, one file each.

mod body;
mod endurance;
mod flank;
mod heat;
mod involute;
mod mesh;
mod root;

pub use body::Gear;
pub use endurance::{Life, flank_life, load_cycles, metal_root_limit, polymer_share, root_life, root_strength};
pub use flank::{Elastic, FlankLoad, flank_pressure, load_for_pressure};
pub use heat::{Rubbing, Running, flank_and_root_warming, loss_factor};
pub use involute::{involute, involute_angle};
pub use mesh::Mesh;
pub use root::{
    LoadAt, Rack, Root, hollow_tooth, lewis_form, lewis_stress, overlap_factor, rim_factor, root_form, root_stress,
    sharing_factor, web_shear,
};
