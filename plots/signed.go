package plots

// SignedVolume writes a difference of volumes [m³] in three digits, with its sign.
func (u Units) SignedVolume(m3 float64) string { return signed(u.volume(m3), rounded) }

// SignedTenths writes a difference with one decimal and its sign.
func SignedTenths(v float64) string { return signed(v, tenths) }

// VolumeText writes a volume [m³] in three digits, with its unit.
func (u Units) VolumeText(m3 float64) string { return u.volumeText(m3) }
