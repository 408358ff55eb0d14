#pragma once

#include <array>
#include <span>

#include "analysis/swing/swing_signs.h"

// Made by tests/bench/swing_odds/fit.py, which says of what and how; docs/formulas.md, F22. Not to be changed
// by hand.

namespace footing {

struct OddsPoint {
    double value;
    double log_odds;
};

inline constexpr std::array<OddsPoint, 8> odds_by_return_share{{{0, 0.00},
                                                                {0.0319, -0.05},
                                                                {0.0354, -0.18},
                                                                {0.1483, -0.58},
                                                                {0.1877, -0.59},
                                                                {0.3113, -0.37},
                                                                {0.5375, -0.41},
                                                                {0.9495, -0.81}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{0, 0.00},
                                                                   {1.006, 0.07},
                                                                   {1.074, 0.03},
                                                                   {4.653, -0.20},
                                                                   {5.702, -0.22},
                                                                   {11.13, -0.43},
                                                                   {26.12, -0.68},
                                                                   {31.56, -0.82}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_s{{{0, 0.00},
                                                            {0.1, 0.23},
                                                            {0.16, 0.52},
                                                            {0.22, 0.97},
                                                            {0.28, 1.10},
                                                            {0.336, 0.94},
                                                            {0.576, 1.21},
                                                            {0.59, 1.04}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0, 0.00},
                                                           {0.09, -0.15},
                                                           {0.112, 0.04},
                                                           {0.176, 0.57},
                                                           {0.21, 0.67},
                                                           {0.24, 0.51},
                                                           {0.47, 0.30},
                                                           {0.55, 0.27}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0062, 0.00},
                                                         {0.1657, 0.54},
                                                         {0.1804, 0.74},
                                                         {0.5445, 1.35},
                                                         {0.71, 1.81},
                                                         {1.28, 1.93},
                                                         {3.15, 1.13},
                                                         {5.716, 0.76}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0006, 0.00},
                                                        {0.0087, -0.20},
                                                        {0.0311, 0.10},
                                                        {0.0332, 0.32},
                                                        {0.0961, 0.86},
                                                        {0.1608, 0.52},
                                                        {0.2804, 0.67},
                                                        {0.3992, 0.75}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.0293, 0.00},
                                                                 {0.3833, -0.17},
                                                                 {1.337, 0.76},
                                                                 {1.359, 1.38},
                                                                 {4.83, 1.66},
                                                                 {8.531, 1.93},
                                                                 {15.6, 1.96},
                                                                 {24.61, 2.08}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.1, -0.52},
                                                          {0.12, -0.11},
                                                          {0.13, -0.26},
                                                          {0.15, -0.68},
                                                          {0.18, -1.38},
                                                          {0.2, -2.25},
                                                          {0.44, -2.68}}};
inline constexpr std::array<OddsPoint, 6> odds_by_impulse_left{
    {{0, 0.00}, {0.0443, 0.87}, {0.2752, 1.37}, {0.2879, 1.71}, {0.6077, 1.34}, {0.998, 0.74}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_after{{{0.0113, 0.00},
                                                                {0.0294, -0.26},
                                                                {0.0925, -0.36},
                                                                {0.2078, -0.33},
                                                                {0.4734, -1.51},
                                                                {0.9639, -2.61},
                                                                {1.066, -2.89},
                                                                {10.62, -3.15}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_before{{{0.015, 0.00},
                                                                 {0.0356, 0.16},
                                                                 {0.0807, 0.29},
                                                                 {0.1791, -0.10},
                                                                 {0.547, -1.00},
                                                                 {1.019, -1.54},
                                                                 {1.523, -1.10},
                                                                 {11.98, -1.52}}};
inline constexpr std::array<OddsPoint, 8> odds_by_sink{{{-0.0901, 0.00},
                                                        {0.0374, 0.21},
                                                        {0.2522, 1.21},
                                                        {0.3867, 1.58},
                                                        {0.3889, 1.69},
                                                        {1.02, 2.39},
                                                        {1.671, 3.04},
                                                        {10.15, 3.47}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rise{{{-0.4078, 0.00},
                                                        {-0.0173, 0.22},
                                                        {0.0272, 0.28},
                                                        {0.1075, 0.27},
                                                        {0.1311, -0.06},
                                                        {0.7642, -0.38},
                                                        {1.143, -0.47},
                                                        {12.4, -0.32}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.2091, 0.00},
                                                          {0.0939, 0.31},
                                                          {0.3897, 2.25},
                                                          {0.6112, 3.00},
                                                          {0.7839, 3.29},
                                                          {0.8819, 3.22},
                                                          {1.218, 3.61},
                                                          {6.642, 4.19}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -1.43}}};
inline constexpr std::array<OddsPoint, 8> odds_by_hold{{{-41.21, 0.00},
                                                        {-1.871, 0.32},
                                                        {-0.0031, -0.10},
                                                        {0.7582, 0.13},
                                                        {0.837, 0.02},
                                                        {0.9949, -0.22},
                                                        {1.093, 0.21},
                                                        {1.143, 0.04}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.6269, 0.00},
                                                              {-0.0713, 0.33},
                                                              {-0.0081, 0.49},
                                                              {0.0705, 1.15},
                                                              {0.1247, 1.55},
                                                              {0.229, 2.14},
                                                              {0.3728, 2.46},
                                                              {0.3827, 2.13}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_share{{{0.1842, 0.00},
                                                             {0.5964, 0.17},
                                                             {1.981, 0.59},
                                                             {5.345, 0.91},
                                                             {10.65, 1.09},
                                                             {10.83, 0.95},
                                                             {27.04, 0.48},
                                                             {81.69, 0.09}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_forward{{{0.4452, 0.00},
                                                               {0.7689, 0.16},
                                                               {1.888, 0.20},
                                                               {3.484, 0.44},
                                                               {4.378, 0.57},
                                                               {11, 0.81},
                                                               {40.32, 0.89},
                                                               {76.68, 0.95}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.25, 0.12},
                                                               {0.42, 0.38},
                                                               {0.6, 0.82},
                                                               {0.84, 0.91},
                                                               {0.92, 0.88},
                                                               {1.62, 0.59},
                                                               {1.97, 0.79}}};
inline constexpr std::array<OddsPoint, 7> odds_by_away_s{
    {{0, 0.00}, {0.05, 0.17}, {0.192, 0.21}, {0.28, 0.05}, {0.37, 0.08}, {0.64, -0.36}, {0.77, -0.58}}};
inline constexpr std::array<OddsPoint, 8> odds_by_impulse{{{0.0002, 0.00},
                                                           {0.0003, -0.25},
                                                           {0.0025, -0.41},
                                                           {0.0032, -0.24},
                                                           {0.006, -0.40},
                                                           {0.0071, -0.38},
                                                           {0.0273, -0.84},
                                                           {0.0371, -1.27}}};
inline constexpr std::array<OddsPoint, 7> odds_by_load_after{{{0.0002, 0.00},
                                                              {0.0022, -0.06},
                                                              {0.0025, -0.07},
                                                              {0.0065, 0.31},
                                                              {0.0069, 0.76},
                                                              {0.0419, 0.58},
                                                              {0.0978, -0.19}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.01, 0.00},
                                                              {0.0328, 0.52},
                                                              {0.0881, 2.18},
                                                              {0.1577, 2.04},
                                                              {0.192, 1.68},
                                                              {0.2952, 1.38},
                                                              {0.5953, 1.10},
                                                              {0.7204, 0.90}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.9766, 0.00},
                                                                 {1.361, 0.37},
                                                                 {1.715, 0.51},
                                                                 {1.795, 0.09},
                                                                 {1.884, -0.49},
                                                                 {2.342, -0.88},
                                                                 {6.003, -1.49},
                                                                 {27.47, -1.07}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0879, 0.00},
                                                             {0.273, 0.45},
                                                             {0.7613, 1.88},
                                                             {0.9868, 2.56},
                                                             {1.645, 2.77},
                                                             {2.72, 3.33},
                                                             {4.95, 3.46},
                                                             {6.904, 3.52}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.38, 0.00}, {0.7869, 0.05}, {1.19, 0.33}, {1.5, 0.93}, {1.504, 1.16}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{-0.0035, 0.00},
                                                          {0.3344, 1.27},
                                                          {0.4692, 1.36},
                                                          {0.4993, 1.28},
                                                          {0.5956, 1.66},
                                                          {0.5991, 1.77},
                                                          {0.7491, 2.21},
                                                          {0.8479, 1.94}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest_before{{{0.4708, 0.00},
                                                                  {0.5075, 0.82},
                                                                  {0.6192, 1.09},
                                                                  {0.6347, 1.05},
                                                                  {0.7166, 1.14},
                                                                  {0.7948, 1.16},
                                                                  {0.8207, 0.46},
                                                                  {0.9971, -0.12}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.5228, 0.00},
                                                           {0.6332, 0.52},
                                                           {0.744, 0.73},
                                                           {0.8442, 0.97},
                                                           {0.8954, 0.77},
                                                           {0.9069, 0.58},
                                                           {0.9812, -0.17},
                                                           {1.002, -1.79}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0007, 0.00},
                                                                 {0.001, 0.10},
                                                                 {0.0037, 0.28},
                                                                 {0.0089, 0.41},
                                                                 {0.0101, 0.54},
                                                                 {0.0166, 0.56},
                                                                 {0.0289, 0.42},
                                                                 {0.0348, 0.13}}};
inline constexpr std::array<OddsPoint, 8> odds_by_settling{{{0.1484, 0.00},
                                                            {0.1565, 0.11},
                                                            {0.4946, 0.49},
                                                            {0.5967, 1.21},
                                                            {1.479, 1.86},
                                                            {1.847, 1.68},
                                                            {9.915, 1.06},
                                                            {13.16, 1.29}}};
inline constexpr std::array<OddsPoint, 8> odds_by_back{{{-0.0068, 0.00},
                                                        {-0.0009, -0.06},
                                                        {0.0141, 0.12},
                                                        {0.0514, 0.12},
                                                        {0.0851, 0.04},
                                                        {0.0992, -0.11},
                                                        {0.2079, -0.74},
                                                        {0.8538, -1.30}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.29}, {3, 0.42}, {5, -0.20}, {8, -0.27}}};
inline constexpr std::array<OddsPoint, 6> odds_by_crossings{
    {{1, 0.00}, {2, 0.59}, {3, 0.92}, {5, 0.62}, {6, 0.72}, {11, 0.66}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.248, 0.00},
                                                              {-0.22, -0.68},
                                                              {-0.01, -1.43},
                                                              {0, -1.27},
                                                              {0.02, -1.23},
                                                              {0.024, -1.52},
                                                              {0.248, -1.78},
                                                              {0.25, -1.40}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -16.34;

/// In the order of SwingSign.
inline constexpr std::array<std::span<const OddsPoint>, sign_count> odds_by_sign{
    odds_by_return_share,  odds_by_return_in_usual, odds_by_return_s,
    odds_by_quick_s,       odds_by_speed,           odds_by_push,
    odds_by_push_in_usual, odds_by_push_s,          odds_by_impulse_left,
    odds_by_unrest_after,  odds_by_unrest_before,   odds_by_sink,
    odds_by_rise,          odds_by_unload,          odds_by_bent_before,
    odds_by_hold,          odds_by_rest_level,      odds_by_far_share,
    odds_by_far_forward,   odds_by_departure_s,     odds_by_away_s,
    odds_by_impulse,       odds_by_load_after,      odds_by_load_range,
    odds_by_range_to_push, odds_by_load_rate,       odds_by_quiet_s,
    odds_by_lowest,        odds_by_highest_before,  odds_by_highest,
    odds_by_forward_range, odds_by_settling,        odds_by_back,
    odds_by_turns,         odds_by_crossings,       odds_by_lateness_s};

}  // namespace footing
