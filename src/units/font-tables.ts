/**
 * What each file of Source Sans 3 Regular carries, in the order in which a letter is looked for: its first code point in
 * base 16, then the width of each letter from there in base 36, thousandths of the type size; ".." where the file has none.
 * A letter is in the first file that has it, combining marks and spaces in all. A test compares this with the fonts.
 */
export const FONT_TABLES = {
  latin:
    '20:5k81budtdtmwgx6x8f8fbmdt6x8n6x9qdtdtdtdtdtdtdtdtdtdt6x6xdtdtdtbtnjf3gcfvh3endqh5i47bdbg3dik7hzigfqigfteuewhxeblue9d8ez8f9q8fdtdwf2e0fdcoffds84e0f46u6vdr73n1f7f2ffff9nbn9ef4czjzceczbt8f6p8fdt a0:5k81dtdtdtdt6pdtf2ko9lbxdt8nbrf297dta7a7f2fmfk6xf2a7a5bxlpmgm4btf4f4f4f4f4f4mufvenenenen7b7b7b7bhrhzigigigigigdtighxhxhxhxd8g7g0e0e0e0e0e0e0lmcodsdsdsds6u6u6u6uf4f7f2f2f2f2f2dtf2f4f4f4f4czffcz 131:6v 152:njnb 2bb:7575 2c6:f2 2da:f2..f2 300:0000..0000 308:0000 323:00 329:00 2009:2s 2013:dcm8 2018:6x6x6x..bububu 2022:8g 2026:qc 2032:6xbu 2039:7j7j 2044:2e 20ac:dt 2122:hp 2191:h7..h7 2212:dt....2e',
  'latin-ext':
    '20:5k a0:5k 100:f4e0f4e0f4e0fvcofvcofvcofvcoh3fxhnfmendsendsendsendsendsh5e0h5e0h5e0h5e0i4f4j8fh7b6u7b6u7b6u7b6u7b..emdpdc6vg3drdrdi73di73di7ddia2dw8ahzf7hzf7hzf7ldhnf7igf2igf2igf2....ft9nft9nft9neubneubneubneubnew9eew9eew9ehxf4hxf4hxf4hxf4hxf4hxf4lujyd8czd8ezbtezbtezbt7jfrko 186:fv 18a:ln....eteni0f3..84h5eb..7b8f....85d0....f7..igf2 1af:ibf4iu 1b7:fa 1bf:f26uclap6w 1cd:f4e07b6uigf2hxf4hxf4hxf4hxf4hxf4ds 1e2:mulmicg2h5e0....igf2....fabt6v 1f4:h5e0..fqhzf7f4e0mulmigf2f4e0....ends....7b6u....igf2 218:eubnew9edtc1i4f4i8..igew....f4e0 237:6v....f3fvcodzew....debvgtj1eb....dv86 250:e0fkfnfdcocrffffdsdsikc0ccg2f687ffffdtcze7f7f4f486739h9s9b73ftn1n1n1f7f7f3f2jgjliw9n9n9n..9n987fdrdtbn6v837u..9e9eg7f6eqczjyczbjbtcrbt..blbl....ele4..dtfm9idrbf..bvbvndnhori2fckq 2b0:a6a64p6o6o....dj8v6x 2bd:756q6q8l8l 2c7:f2577p696936 2d0:6x6x6q6qa7a7a7a7 2dd:f24s..8u4u7v8j8e 2ed:a7 300:0000..0000 308:0000 323:00 329:00 1d25:e7 1d2c:a3..aw..bf9r..bfc24w8xar91diby..cb..apat9wbzem9l 1d47:aeae9c9c8s..9j..9dfja9a5 1d56:ae6gaa....8x 1d6f:q5ib 1d79:dg..9i 1d7f:f6 1d9c:8i 1da0:5l 1dac:fj..ab..a8 1dbb:82 1dbf:a5 1e02:gcfd....gcfd....h3ffh3ffh3ffh3ff 1e16:ends 1e1e:dq84h5e0i4f4i4f4i4f4i4f4i4f4 1e32:g3drg3drdi73di73di73....k7n1k7n1k7n1hzf7hzf7hzf7 1e52:igf2....fqffft9nft9nft9nft9neubneubn....eubn....ew9eew9eew9e....hxf4 1e7e:ebczlujylujylujy 1e8e:d8czezbtezbtezbtf49e 1e9e:ijet 1ef2:d8czd8czd8czd8cz 2020:cm 20a1:dt..dtdt..dtdt..dt..dt....dt....dtdt..dtdt....dtdtdt....dt 2113:bd 2c60:dz85fg....e09e 2c71:d9 2c7d:9m a722:817u817u a74e:tfoc a75a:d4am a764:gwfq a779:igetfqa7grgrdgdi73fte3fqa7ewbz..6x a7ad:ev9j a7b3:e2..fp a7f2:aj96cb',
  cyrillic:
    '20:5k a0:5k 301:00 400:enenj3dufveu7b7bdcoxptjcg3i8eahxf4g4gcduhqenn2faiai8g3hik7i4ighxfqfveweakce9hugmodogk0m6g4fvp8g6e0f4e4bfetdsj4cofpfpdrerhlfmf2fdffcocsczkecefie8ktl5gkiqdncokiebdsdsfkbfcobn6u6u6vkfl2f4drfpczfi 490:dubk 4b0:d8cz 2116:ot',
  greek:
    '20:5k a0:5k 374:6x6x 37a:f2 37e:6x 384:f2f2fx6xgzkg9n..kl..gskp7af4gcdugcenezi4ig7bg3ebk7hzetighxfq..eyewd8jze9jfiu7bd8fkcgf17ae6fkfpdgercgbsf1ei7adqdqfmd6bzevgaf9c0f6cqe6iwddj5jh7ae6eve6jhg9fgei 3d5:iw..ei..ev..cy..bh 3e1:du 3f4:ig....ffeo',
  vietnamese:
    '20:5k a0:5k 300:0000..0000 308:0000 323:00 329:00 1ea0:f4e0f4e0f4e0f4e0f4e0f4e0f4e0f4e0f4e0f4e0f4e0f4e0endsendsendsendsendsendsendsends7b6u7b6uigf2igf2igf2igf2igf2igf2igf2igf2igf2igf2igf2igf2hxf4hxf4ibf4ibf4ibf4ibf4ibf4',
  'cyrillic-ext':
    '20:5k a0:5k 462:h2g0 472:igf2epd9 492:ehbz....oak7fecohgew 4a0:jvgyidfy 4aa:fvco....d8cz....fbde....gveg....gmf4 4c0:7bn2j4gee1....i4fm 4cf:73f4e0....mulmendsi4ds 4e2:i8fp....igf2igf2 4ee:eacz....eacz....dubf',
  'greek-ext':
    '20:5k a0:5k 1f00:fkfkfkfkfkfkfkfkgcfxkgkak0jqhlhlcgcgcgcgcgcg....ihihlrlrlrlh....f1f1f1f1f1f1f1f1lylyp8p8p8oyndnd7a7a7a7a7a7a7a7ab5b5efefele5ckckevevevevevev....m3m3prprpdp3....e6e6e6e6e6e6e6e6..ic..lm..la..k5jhjhjhjhjhjhjhjhmhmhq5q5prpendndfkfkcgcgf1f17a7aeveve6e6jhjh....fkfkfkfkfkfkfkfknln7rqrjr9qzovovf1f1f1f1f1f1f1f1t7t7wiwiwiw8ununjhjhjhjhjhjhjhjhtrtrxfxfx1wnumumfkfkfkfkfk..fkfkf4f4g4fxmdf27af2f2f2f1f1f1..f1f1gzgzkgkgpdf2f2f27a7a7a7a....7a7a7b7b9n9a..f2f2f2e6e6e6e6f9f9e6e6d8d8gsgsjkf2f2f2....jhjhjh..jhjhksk8l3kpq3f2f2',
} as const;

export type FontSubset = keyof typeof FONT_TABLES;
