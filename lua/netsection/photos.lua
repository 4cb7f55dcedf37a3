-- SPDX-License-Identifier: MIT
-- Photos that a survey names: found by name in one folder that the user gave, looked at
-- as bytes and never run, fetched or decoded here. What is no whole JPEG or PNG, too
-- large, a link, or not there is a named problem and is left out.
local file = require "netsection.file"
local folder = require "netsection.folder"
local zip = require "netsection.zip"
local tostring = require "netsection.point".text

local photos = {}

-- Bytes of one and of all, picture elements of one, how many.
local LARGEST, TOGETHER, ELEMENTS, MOST = 12 << 20, 60 << 20, 60e6, 200
photos.largest = LARGEST

local FORMS = {jpg = "jpeg", jpeg = "jpeg", png = "png"}

---------------------------------------------------------------------------
-- What a picture is
---------------------------------------------------------------------------

-- Frames of JPEG (ITU-T T.81, table B.1): the size stands in SOF0 to SOF15, of which
-- three numbers are other segments.
local function is_frame(marker)
  return marker >= 0xC0 and marker <= 0xCF and marker ~= 0xC4 and marker ~= 0xC8
    and marker ~= 0xCC
end

local function jpeg_size(text)
  local at, width, height = 3, nil, nil
  while at + 3 <= #text do
    local mark, marker = text:byte(at, at + 1)
    if mark ~= 0xFF then return nil end
    if marker == 0xFF then
      at = at + 1
    else
      local length = string.unpack(">I2", text, at + 2)
      if length < 2 then return nil end
      if is_frame(marker) and at + 8 <= #text then
        height, width = string.unpack(">I2I2", text, at + 5)
      elseif marker == 0xDA then                            -- the picture begins
        local whole = text:find("\xFF\xD9", at + length, true)
        return whole and width, height
      end
      at = at + 2 + length
    end
  end
end

-- Chunks of PNG (ISO/IEC 15948): the size stands in the first, IEND is the last.
local function png_size(text)
  if #text < 33 or text:sub(13, 16) ~= "IHDR" then return nil end
  if zip.crc32(text:sub(13, 29)) ~= string.unpack(">I4", text, 30) then return nil end
  local width, height = string.unpack(">I4I4", text, 17)
  local at, data = 9, false
  while at + 11 <= #text do
    local length, name = string.unpack(">I4c4", text, at)
    if at + 11 + length > #text then return nil end
    if name == "IEND" then return data and width, height end
    data = data or name == "IDAT"
    at = at + 12 + length
  end
end

local SIGNS = {{"\xFF\xD8\xFF", "jpeg", jpeg_size},
  {"\x89PNG\r\n\x1A\n", "png", png_size}}

--- What a picture is, by its bytes. @return "jpeg" or "png", width, height; or nil and
-- what is wrong
function photos.kind(text)
  for _, s in ipairs(SIGNS) do
    if text:sub(1, #s[1]) == s[1] then
      local width, height = s[3](text)
      if not width then return nil, "a broken picture: it is not whole" end
      if width == 0 or height == 0 then return nil, "a broken picture: it has no size" end
      if width * height > ELEMENTS then
        return nil, ("%d x %d picture elements, where %d million are taken"):format(width,
          height, ELEMENTS // 1e6)
      end
      return s[2], width, height
    end
  end
  return nil, "neither a JPEG nor a PNG picture"
end

---------------------------------------------------------------------------
-- Names
---------------------------------------------------------------------------

-- "12; porch.jpg" -> names, as a field book has several in a cell.
local function names_in(said)
  local list = {}
  for name in tostring(said):gmatch "[^;,\r\n]+" do
    name = name:match "^%s*(.-)%s*$"
    if name ~= "" then list[#list + 1] = name end
  end
  return list
end

local function refused(name)
  if name:find "[/\\]" or name:find "%c" or name:find "^%." or name:find ":" then
    return "a file name without folders expected"
  elseif #name > 200 then
    return "a file name of at most 200 bytes expected"
  end
end

-- The entry of a folder that a name means: itself, in another case, or, as a bare number,
-- the picture of that name.
local function entry_of(entries, name)
  local found = {}
  for _, e in ipairs(entries) do
    if e == name then return e end
    local lower, wanted = e:lower(), name:lower()
    local stem, form = lower:match "^(.*)%.(%a+)$"
    if lower == wanted or FORMS[form] and stem == wanted then found[#found + 1] = e end
  end
  if #found > 1 then
    return nil, ("%s could be meant"):format(table.concat(found, " or "))
  end
  return found[1], "there is no such file in the folder of photos"
end

local function read_one(path, entries, name)
  local why = refused(name)
  if why then return nil, why end
  local entry, missing = entry_of(entries, name)
  if not entry then return nil, missing end
  if not FORMS[(entry:match "%.(%a+)$" or ""):lower()] then
    return nil, "a name that ends in .jpg, .jpeg or .png expected"
  end
  local full = path:gsub("[/\\]+$", "") .. "/" .. entry
  local kind, _, _, link = folder.kind(full)
  if link then return nil, "it is a link, which may lead out of the folder" end
  if kind ~= "file" then return nil, "it is no regular file" end
  local text, problem = file.read(full, LARGEST)
  if not text then return nil, (problem:gsub("^.-: ", "")) end
  local form, width, height = photos.kind(text)
  if not form then return nil, width end
  return {name = entry, form = form, width = width, height = height, text = text}
end

---------------------------------------------------------------------------
-- Those of a floor
---------------------------------------------------------------------------

-- {{said in the survey, what it shows}, ...} of a joist: itself, its cuts, its loads.
local function named(r)
  local of, list = r.joist.description, {}
  local survey = type(of.survey) == "table" and of.survey or {}
  local function add(said, what)
    if said ~= nil and said ~= "" then list[#list + 1] = {said, what} end
  end
  add(survey.photo, nil)
  for i, cut in ipairs(of.cuts or {}) do
    local kept = survey.cuts and survey.cuts[i]
    local shown = r.cuts and r.cuts[i] and r.cuts[i].name
    add(kept and kept.photo, shown or tostring(cut.kind) .. " " .. i)
  end
  for i, load in ipairs(of.loads or {}) do
    local kept = survey.loads and survey.loads[i]
    add(kept and kept.photo, ("load %d (%s)"):format(i, tostring(load.kind)))
  end
  return list
end

--- The photos that the survey of these reviews names.
-- @param path the folder that holds them; nothing outside of it is read
-- @return {{mark =, what = "hole 1" or nil, name =, form = "jpeg" | "png", width =,
--   height =, text = bytes}, ...}, list of problems "J2, hole 1, photo x.jpg: ..."
function photos.of(reviews, path)
  local entries = folder.entries(path)
  if not entries then return {}, {"photos: the folder cannot be read"} end
  local list, problems, bytes = {}, {}, 0
  for _, r in ipairs(reviews) do
    for _, n in ipairs(named(r)) do
      for _, name in ipairs(names_in(n[1])) do
        local photo, why
        if #list >= MOST then
          why = ("only %d photos are placed"):format(MOST)
        else
          photo, why = read_one(path, entries, name)
        end
        if photo and bytes + #photo.text > TOGETHER then
          photo, why = nil, ("the photos together exceed %d million bytes"):format(
            TOGETHER // 1e6)
        end
        if photo then
          bytes = bytes + #photo.text
          photo.mark, photo.what = r.mark, n[2]
          list[#list + 1] = photo
        else
          problems[#problems + 1] = ("%s%s, photo %s: %s"):format(r.mark, n[2] and ", "
            .. n[2] or "", name:gsub("%c", "?"):sub(1, 200), why)
        end
      end
    end
  end
  return list, problems
end

---------------------------------------------------------------------------
-- In a document
---------------------------------------------------------------------------

--- Adds them with their captions, and what could not be placed.
function photos.add(d, list, problems)
  if #list == 0 and #problems == 0 then return end
  d:heading(2, "Photos")
  for _, p in ipairs(list) do
    local caption = ("%s%s: %s"):format(p.mark, p.what and ", " .. p.what or "", p.name)
    d:figure {name = p.name, alt = "Photo of " .. caption, caption = caption,
      photo = {form = p.form, text = p.text}}
  end
  if #problems > 0 then
    d:paragraph "Named in the survey and not placed:":list(problems)
  end
end

return photos
