#!/bin/sh
# Prints f_T and f_hfb of one-pole transistors as ngspice finds them, for cutoff.ref.json.
deck=$(mktemp)
while read -r h f; do
  cat > "$deck" <<EOF
one-pole transistor: h_fe = h / (1 + j f / f_hfe)
* common emitter: base driven
Ib 0 b DC 0 AC 1
Rb b 0 1k
Cb b 0 {1/(2*3.14159265358979*1k*$f)}
Gm c 0 b 0 {$h/1k}
Vc c 0 0
* common base: emitter driven
Ie 0 e DC 0 AC 1
Rp e 0 1k
Cp e 0 {1/(2*3.14159265358979*1k*$f)}
Gp 0 x e 0 {$h/1k}
Gq e 0 e 0 {$h/1k}
Vx x 0 0
.control
ac dec 2000 1k 1g
let hfe = mag(i(Vc))
let hfb = mag(i(Vx))
meas ac f_T when hfe=1 fall=1
let down = hfb - hfb[0]/sqrt(2)
meas ac f_hfb when down=0 fall=1
.endc
.end
EOF
  echo "h $h, f_hfe $f"
  ngspice -b "$deck" 2>&1 | grep -i '^f_'
done <<EOF
99 50e3
49 80e3
19 400e3
199 12e3
EOF
rm "$deck"
