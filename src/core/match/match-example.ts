/** Invented parts to try matching with. */
export const matchExampleCsv = `tag,type,ln_hfe,log10_iceo_uA,vbe_mV
OP-1,HX-40,4.21,2.22,165
OP-2,HX-40,4.43,1.96,158
OP-3,HX-40,4.41,1.99,160
OP-4,HX-40,3.92,1.81,171
OP-5,HX-40,3.95,1.86,170
OP-6,HX-40,4.24,2.18,163
OP-7,HX-40,4.62,2.31,149
OP-8,HX-40,4.58,2.36,150
`
