-- SPDX-License-Identifier: MIT
-- Characters as LaTeX commands that need no package beyond the kernel and no font beyond
-- the first ones (OT1), where "<", "|" and the straight quote are other glyphs.
local characters = {}

local ASCII = {
  ["\\"] = "\\textbackslash{}", ["{"] = "\\{", ["}"] = "\\}", ["$"] = "\\$",
  ["&"] = "\\&", ["#"] = "\\#", ["_"] = "\\_", ["%"] = "\\%", ["^"] = "\\^{}",
  ["~"] = "\\~{}", ["<"] = "\\textless{}", [">"] = "\\textgreater{}",
  ["|"] = "\\textbar{}",
  -- braces keep these from joining with a neighbor, or being read as an option after
  -- the end of a row or an item
  ['"'] = "{''}", ["'"] = "{'}", ["`"] = "{`}", ["-"] = "{-}", ["["] = "{[}",
  ["]"] = "{]}", ["*"] = "{*}", ["!"] = "{!}", ["?"] = "{?}", ["="] = "{=}",
}

-- Accent command -> letters it goes over, as pairs of letter and code point.
local ACCENTS = {
  ["`"] = {A = 0xC0, E = 0xC8, I = 0xCC, O = 0xD2, U = 0xD9, a = 0xE0, e = 0xE8,
    i = 0xEC, o = 0xF2, u = 0xF9},
  ["'"] = {A = 0xC1, E = 0xC9, I = 0xCD, O = 0xD3, U = 0xDA, Y = 0xDD, a = 0xE1,
    e = 0xE9, i = 0xED, o = 0xF3, u = 0xFA, y = 0xFD, C = 0x106, c = 0x107, N = 0x143,
    n = 0x144, S = 0x15A, s = 0x15B, Z = 0x179, z = 0x17A},
  ["^"] = {A = 0xC2, E = 0xCA, I = 0xCE, O = 0xD4, U = 0xDB, a = 0xE2, e = 0xEA,
    i = 0xEE, o = 0xF4, u = 0xFB},
  ["~"] = {A = 0xC3, N = 0xD1, O = 0xD5, a = 0xE3, n = 0xF1, o = 0xF5},
  ['"'] = {A = 0xC4, E = 0xCB, I = 0xCF, O = 0xD6, U = 0xDC, a = 0xE4, e = 0xEB,
    i = 0xEF, o = 0xF6, u = 0xFC, y = 0xFF, Y = 0x178},
  v = {C = 0x10C, c = 0x10D, D = 0x10E, d = 0x10F, E = 0x11A, e = 0x11B, N = 0x147,
    n = 0x148, R = 0x158, r = 0x159, S = 0x160, s = 0x161, T = 0x164, t = 0x165,
    Z = 0x17D, z = 0x17E},
  r = {U = 0x16E, u = 0x16F}, c = {C = 0xC7, c = 0xE7, S = 0x15E, s = 0x15F},
  H = {O = 0x150, o = 0x151, U = 0x170, u = 0x171},
  ["="] = {A = 0x100, a = 0x101, E = 0x112, e = 0x113, O = 0x14C, o = 0x14D,
    U = 0x16A, u = 0x16B},
  ["."] = {Z = 0x17B, z = 0x17C, I = 0x130},
}

local OTHERS = {
  [0xA0] = "~", [0xA1] = "!`", [0xA3] = "\\pounds{}", [0xA7] = "\\S{}",
  [0xA9] = "\\copyright{}", [0xAB] = "\\ensuremath{\\ll}", [0xB6] = "\\P{}",
  [0xBB] = "\\ensuremath{\\gg}", [0xBC] = "1/4", [0xBD] = "1/2", [0xBE] = "3/4",
  [0xBF] = "?`", [0xC5] = "\\AA{}", [0xE5] = "\\aa{}", [0xC6] = "\\AE{}",
  [0xE6] = "\\ae{}", [0xD8] = "\\O{}", [0xF8] = "\\o{}", [0xDF] = "\\ss{}",
  [0x131] = "\\i{}", [0x141] = "\\L{}", [0x142] = "\\l{}", [0x152] = "\\OE{}",
  [0x153] = "\\oe{}", [0x2010] = "{-}", [0x2011] = "\\mbox{-}", [0x2013] = "--",
  [0x2014] = "---", [0x2018] = "`", [0x2019] = "{'}", [0x201C] = "``",
  [0x201D] = "{''}", [0x2026] = "\\dots{}", [0x2030] = "0/00", [0x2009] = "\\,",
  [0x202F] = "\\,", [0x20AC] = "EUR", [0x215B] = "1/8", [0x215C] = "3/8",
  [0x215D] = "5/8", [0x215E] = "7/8",
}

local MATH = {
  [0xB0] = "^{\\circ}", [0xB1] = "\\pm", [0xB2] = "^{2}", [0xB3] = "^{3}",
  [0xB5] = "\\mu", [0xB7] = "\\cdot", [0xB9] = "^{1}", [0xD7] = "\\times",
  [0xF7] = "\\div", [0x2022] = "\\bullet", [0x2032] = "^{\\prime}",
  [0x2033] = "^{\\prime\\prime}", [0x2044] = "/", [0x2190] = "\\leftarrow",
  [0x2192] = "\\rightarrow", [0x2211] = "\\Sigma", [0x2212] = "-", [0x221A] = "\\surd",
  [0x221E] = "\\infty", [0x2248] = "\\approx", [0x2260] = "\\neq", [0x2264] = "\\leq",
  [0x2265] = "\\geq", [0x22A5] = "\\perp", [0x2205] = "\\emptyset",
  [0x393] = "\\Gamma", [0x394] = "\\Delta", [0x398] = "\\Theta", [0x39B] = "\\Lambda",
  [0x3A0] = "\\Pi", [0x3A3] = "\\Sigma", [0x3A6] = "\\Phi", [0x3A9] = "\\Omega",
  [0x3B1] = "\\alpha", [0x3B2] = "\\beta", [0x3B3] = "\\gamma", [0x3B4] = "\\delta",
  [0x3B5] = "\\varepsilon", [0x3B7] = "\\eta", [0x3B8] = "\\theta",
  [0x3BB] = "\\lambda", [0x3BC] = "\\mu", [0x3BD] = "\\nu", [0x3C0] = "\\pi",
  [0x3C1] = "\\rho", [0x3C3] = "\\sigma", [0x3C4] = "\\tau", [0x3C6] = "\\varphi",
  [0x3C7] = "\\chi", [0x3C8] = "\\psi", [0x3C9] = "\\omega",
}

for code, command in pairs(MATH) do OTHERS[code] = "\\ensuremath{" .. command .. "}" end
for accent, letters in pairs(ACCENTS) do
  for letter, code in pairs(letters) do
    OTHERS[code] = ("\\%s{%s}"):format(accent, letter == "i" and "\\i" or letter)
  end
end

--- What LaTeX reads for a character; one that is not known here is named by its code.
-- @param code nil for a byte that is no character
function characters.of(code, character)
  if not code or code < 128 then return ASCII[character] or character end
  return OTHERS[code] or ("{[}U+%04X{]}"):format(code)
end

return characters
