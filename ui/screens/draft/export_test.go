package draft

import "holdover/ui/disk"

// Rig has the draft write by other steps than the system's.
func (d *Draft) Rig(steps disk.Steps) { d.session.Steps = steps }
