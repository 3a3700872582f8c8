//! Runs every rule over every case point and turns outcomes into findings. It never knows: YAML, layout, rules by name.
