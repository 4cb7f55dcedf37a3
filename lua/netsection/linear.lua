-- SPDX-License-Identifier: MIT
-- Sets of a few linear equations.
local linear = {}

--- Solves A x = y by Gauss with partial pivots.
-- @param A rows of coefficients; @param y right sides; both are used up
-- @return x, which is y
function linear.solve(A, y)
  local n = #y
  for k = 1, n do
    local p = k
    for i = k + 1, n do
      if math.abs(A[i][k]) > math.abs(A[p][k]) then p = i end
    end
    A[k], A[p], y[k], y[p] = A[p], A[k], y[p], y[k]
    for i = k + 1, n do
      local f = A[i][k] / A[k][k]
      for j = k, n do A[i][j] = A[i][j] - f * A[k][j] end
      y[i] = y[i] - f * y[k]
    end
  end
  for k = n, 1, -1 do
    for j = k + 1, n do y[k] = y[k] - A[k][j] * y[j] end
    y[k] = y[k] / A[k][k]
  end
  return y
end

return linear
