#pragma once

#include <array>
#include <span>

#include "analysis/swing/swing_likeness.h"
#include "analysis/swing/swing_signs.h"

// Made by tests/bench/swing_odds/fit.py, which says of what and how; docs/formulas.md, F22. Not to be changed
// by hand.

namespace footing {

struct OddsPoint {
    double value;
    double log_odds;
};

inline constexpr std::array<OddsPoint, 8> odds_by_return_share{{{0, 0.00},
                                                                {0.0227, 0.54},
                                                                {0.026, 0.70},
                                                                {0.1091, 0.22},
                                                                {0.1743, 0.24},
                                                                {0.2858, 0.63},
                                                                {0.5326, 0.80},
                                                                {0.583, 0.81}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{0, 0.00},
                                                                   {0.7727, -0.02},
                                                                   {0.9432, 0.06},
                                                                   {3.774, 0.07},
                                                                   {5.924, -0.32},
                                                                   {11.65, -1.19},
                                                                   {25.19, -1.32},
                                                                   {30.17, -1.16}}};
inline constexpr std::array<OddsPoint, 7> odds_by_return_s{
    {{0, 0.00}, {0.1, 0.13}, {0.18, 0.15}, {0.25, 0.18}, {0.32, 0.10}, {0.39, 0.21}, {0.6, 0.60}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0, 0.00},
                                                           {0.08, -0.29},
                                                           {0.1, -0.61},
                                                           {0.18, -0.10},
                                                           {0.23, -0.28},
                                                           {0.25, -0.39},
                                                           {0.48, -1.05},
                                                           {0.56, -0.99}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0011, 0.00},
                                                         {0.1281, 1.03},
                                                         {0.1444, 1.21},
                                                         {0.3369, 1.75},
                                                         {0.6268, 2.99},
                                                         {1.146, 3.81},
                                                         {2.752, 3.46},
                                                         {3.125, 2.88}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0005, 0.00},
                                                        {0.0082, 0.48},
                                                        {0.0291, 0.34},
                                                        {0.0315, 0.56},
                                                        {0.0991, 0.86},
                                                        {0.1766, 1.01},
                                                        {0.3697, 1.57},
                                                        {0.4199, 1.42}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.0258, 0.00},
                                                                 {0.3835, 0.06},
                                                                 {1.448, 0.69},
                                                                 {1.461, 1.05},
                                                                 {5.353, 2.08},
                                                                 {10.28, 2.07},
                                                                 {22.14, 2.33},
                                                                 {26.86, 2.31}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.1, -0.55},
                                                          {0.11, -0.13},
                                                          {0.13, -0.06},
                                                          {0.16, -0.17},
                                                          {0.18, -0.77},
                                                          {0.24, -1.62},
                                                          {0.61, -2.02}}};
inline constexpr std::array<OddsPoint, 5> odds_by_impulse_left{
    {{0, 0.00}, {0.1933, 0.98}, {0.3239, 1.08}, {0.6026, 0.69}, {0.9998, -0.61}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_after{{{0.0139, 0.00},
                                                                {0.0254, -0.14},
                                                                {0.0965, 0.25},
                                                                {0.2056, 0.71},
                                                                {0.4033, 0.11},
                                                                {0.8319, -0.53},
                                                                {0.952, -1.08},
                                                                {12.51, -0.50}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_before{{{0.0287, 0.00},
                                                                 {0.038, 0.55},
                                                                 {0.1308, 1.05},
                                                                 {0.2983, 1.17},
                                                                 {0.4743, 1.16},
                                                                 {1.004, 0.26},
                                                                 {1.136, 0.62},
                                                                 {16.05, -0.59}}};
inline constexpr std::array<OddsPoint, 8> odds_by_sink{{{-0.1058, 0.00},
                                                        {0.0867, -0.30},
                                                        {0.3948, 1.14},
                                                        {0.3966, 1.11},
                                                        {0.6617, 1.62},
                                                        {0.9877, 2.15},
                                                        {1.362, 3.01},
                                                        {11.92, 3.89}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rise{{{-0.4055, 0.00},
                                                        {-0.0208, 0.29},
                                                        {0.0679, 0.31},
                                                        {0.1255, 0.37},
                                                        {0.148, 0.32},
                                                        {0.6888, -0.74},
                                                        {0.6891, -0.77},
                                                        {16.66, -1.02}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.4181, 0.00},
                                                          {-0.0305, -0.27},
                                                          {0.3033, 1.48},
                                                          {0.3744, 2.05},
                                                          {0.5925, 1.64},
                                                          {0.7683, 1.72},
                                                          {1.097, 2.33},
                                                          {7.036, 3.50}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -1.20}}};
inline constexpr std::array<OddsPoint, 8> odds_by_hold{{{-12.1, 0.00},
                                                        {-0.0761, 0.02},
                                                        {0.0673, 0.18},
                                                        {0.8839, 1.01},
                                                        {0.9364, 0.61},
                                                        {1.016, 1.42},
                                                        {1.135, 1.15},
                                                        {1.138, 0.88}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.3852, 0.00},
                                                              {-0.006, 0.45},
                                                              {-0.0013, 1.21},
                                                              {0.0879, 1.71},
                                                              {0.1245, 1.69},
                                                              {0.2051, 2.11},
                                                              {0.3479, 2.37},
                                                              {0.3762, 1.83}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_share{{{0.2374, 0.00},
                                                             {0.9286, -0.17},
                                                             {1.565, 0.33},
                                                             {5.489, 0.64},
                                                             {8.019, 0.58},
                                                             {11.79, 0.71},
                                                             {39.61, 0.36},
                                                             {62, 0.27}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_forward{{{0.4574, 0.00},
                                                               {0.836, 0.19},
                                                               {1.724, 0.10},
                                                               {2.797, 0.32},
                                                               {3.703, 0.28},
                                                               {6.296, 0.54},
                                                               {31.41, 1.15},
                                                               {58.86, 1.31}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.2674, 0.52},
                                                               {0.37, 0.77},
                                                               {0.64, 1.06},
                                                               {0.86, 1.11},
                                                               {0.87, 1.33},
                                                               {1.49, 0.79},
                                                               {1.896, 1.08}}};
inline constexpr std::array<OddsPoint, 6> odds_by_away_s{
    {{0, 0.00}, {0.264, 0.61}, {0.28, 0.84}, {0.43, 1.00}, {0.744, 0.57}, {0.824, -0.09}}};
inline constexpr std::array<OddsPoint, 7> odds_by_impulse{{{0.0001, 0.00},
                                                           {0.0018, -0.00},
                                                           {0.0019, 0.00},
                                                           {0.0045, 0.14},
                                                           {0.0052, 0.21},
                                                           {0.0183, -0.31},
                                                           {0.1113, -1.30}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_after{{{0.0001, 0.00},
                                                              {0.0002, -0.04},
                                                              {0.0021, -0.00},
                                                              {0.0022, 0.08},
                                                              {0.0068, 0.20},
                                                              {0.0069, 0.55},
                                                              {0.0407, 0.06},
                                                              {0.1175, -0.84}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.0082, 0.00},
                                                              {0.033, 0.99},
                                                              {0.0727, 2.94},
                                                              {0.1605, 2.99},
                                                              {0.179, 2.62},
                                                              {0.3042, 1.83},
                                                              {0.668, 1.30},
                                                              {0.6865, 1.18}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.8099, 0.00},
                                                                 {1.349, 0.59},
                                                                 {1.6, 0.39},
                                                                 {1.71, 0.85},
                                                                 {1.805, -0.11},
                                                                 {2.371, -1.03},
                                                                 {3.532, -1.76},
                                                                 {35.77, -0.49}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0755, 0.00},
                                                             {0.2884, 0.92},
                                                             {0.538, 1.74},
                                                             {0.8931, 1.93},
                                                             {1.483, 2.20},
                                                             {2.72, 3.00},
                                                             {5.963, 3.56},
                                                             {7.117, 3.81}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.38, 0.00}, {0.78, -0.22}, {1.09, 0.15}, {1.5, 1.31}, {1.504, 1.39}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{0.0139, 0.00},
                                                          {0.3305, 1.48},
                                                          {0.4862, 1.10},
                                                          {0.5304, 1.09},
                                                          {0.603, 1.22},
                                                          {0.6498, 1.52},
                                                          {0.7654, 2.28},
                                                          {0.8123, 1.97}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest_before{{{0.4344, 0.00},
                                                                  {0.5043, 0.82},
                                                                  {0.5957, 1.36},
                                                                  {0.6421, 1.62},
                                                                  {0.7431, 1.89},
                                                                  {0.751, 1.78},
                                                                  {0.8309, 1.37},
                                                                  {0.9783, 1.01}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.4773, 0.00},
                                                           {0.6188, 0.26},
                                                           {0.6734, 0.06},
                                                           {0.8416, 0.75},
                                                           {0.8497, 0.87},
                                                           {0.9055, 0.67},
                                                           {0.9814, -0.87},
                                                           {0.9907, -2.23}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0008, 0.00},
                                                                 {0.0014, 0.17},
                                                                 {0.0051, 0.46},
                                                                 {0.0103, 0.36},
                                                                 {0.0122, 0.60},
                                                                 {0.0181, 0.40},
                                                                 {0.0431, -0.34},
                                                                 {0.0441, -1.01}}};
inline constexpr std::array<OddsPoint, 8> odds_by_settling{{{0.1694, 0.00},
                                                            {0.2098, 0.30},
                                                            {0.4732, 1.29},
                                                            {0.6649, 2.12},
                                                            {1.125, 2.67},
                                                            {1.575, 2.39},
                                                            {7.484, 1.39},
                                                            {11.48, 1.60}}};
inline constexpr std::array<OddsPoint, 8> odds_by_back{{{-0.0064, 0.00},
                                                        {-0.0008, -0.11},
                                                        {0.0079, 0.35},
                                                        {0.0496, 0.45},
                                                        {0.0547, 0.24},
                                                        {0.1003, -0.01},
                                                        {0.2434, -0.95},
                                                        {0.5217, -2.11}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.33}, {3, 0.70}, {4, 0.34}, {8, -0.27}}};
inline constexpr std::array<OddsPoint, 5> odds_by_crossings{
    {{1, 0.00}, {2, 0.75}, {3, 1.19}, {5, 0.20}, {11, -0.95}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.25, 0.00},
                                                              {-0.15, 0.09},
                                                              {-0.01, -0.48},
                                                              {0, -0.57},
                                                              {0.01, -0.27},
                                                              {0.02, -0.53},
                                                              {0.21, -0.80},
                                                              {0.25, -0.00}}};
inline constexpr std::array<OddsPoint, 8> odds_by_stir_before{{{0.0129, 0.00},
                                                               {0.0251, -0.06},
                                                               {0.0585, -0.18},
                                                               {0.1196, -0.27},
                                                               {0.4351, -1.16},
                                                               {0.6215, -1.42},
                                                               {1.415, -1.95},
                                                               {39.66, -2.43}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_repeats{{{0.3028, 0.00},
                                                                {0.491, 0.28},
                                                                {0.673, 0.51},
                                                                {0.7802, 0.78},
                                                                {0.8512, 0.44},
                                                                {0.8771, 0.65},
                                                                {0.9657, -0.06},
                                                                {0.9919, -1.21}}};
inline constexpr std::array<OddsPoint, 8> odds_by_share_repeats{{{0.0049, 0.00},
                                                                 {0.1204, 0.31},
                                                                 {0.6286, 0.28},
                                                                 {0.7492, 0.33},
                                                                 {0.8607, 0.39},
                                                                 {0.9091, 0.34},
                                                                 {0.9887, 0.32},
                                                                 {0.9901, 0.34}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -22.58;

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
    odds_by_turns,         odds_by_crossings,       odds_by_lateness_s,
    odds_by_stir_before,   odds_by_load_repeats,    odds_by_share_repeats};

/// What the signs alone tell counts so much beside the likeness.
inline constexpr std::array<OddsPoint, 2> odds_by_signs{{{-6, 0.00}, {6, 10.93}}};
inline constexpr std::array<OddsPoint, 5> odds_by_load_alike{
    {{-0.2, 0.00}, {0.4, -0.47}, {0.7, -0.70}, {0.85, 0.66}, {1, 5.05}}};
inline constexpr std::array<OddsPoint, 5> odds_by_share_alike{
    {{-0.2, 0.00}, {0.4, 0.43}, {0.7, 0.59}, {0.85, 0.25}, {1, 1.33}}};
inline constexpr std::array<OddsPoint, 5> odds_by_address_apart{
    {{0, 0.00}, {0.03, -0.49}, {0.08, -1.54}, {0.15, -2.76}, {0.3, -4.15}}};
inline constexpr std::array<OddsPoint, 5> odds_by_rest_apart{
    {{0, 0.00}, {0.03, 0.53}, {0.08, 0.64}, {0.15, 0.54}, {0.3, 0.20}}};
inline constexpr std::array<OddsPoint, 5> odds_by_push_apart{
    {{0, 0.00}, {0.2, 0.41}, {0.5, 0.53}, {1, -0.04}, {2, -0.22}}};
inline constexpr std::array<OddsPoint, 5> odds_by_away_apart{
    {{0, 0.00}, {0.2, 0.46}, {0.5, -0.11}, {1, -0.11}, {2, -0.58}}};
inline constexpr std::array<OddsPoint, 5> odds_by_lateness_apart{
    {{0, 0.00}, {0.03, 0.29}, {0.08, 0.77}, {0.15, 1.36}, {0.3, 1.05}}};

/// Of a candidate where all of these are at their first points.
inline constexpr double likeness_odds_at_first = -6.66;

/// In the order of LikenessSign.
inline constexpr std::array<std::span<const OddsPoint>, likeness_sign_count> odds_by_likeness{
    odds_by_load_alike, odds_by_share_alike, odds_by_address_apart, odds_by_rest_apart,
    odds_by_push_apart, odds_by_away_apart,  odds_by_lateness_apart};

}  // namespace footing
