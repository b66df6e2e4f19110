"""The wall and everything that is computed on it.

Millimetres, degrees, litres per minute, bar (gauge), degrees Celsius. On the wall x runs right from
the left finished corner, y runs up from the finished floor, z runs from the bare wall face towards
the room (negative behind it). Nothing in this package knows Qt, paper or files.
"""
