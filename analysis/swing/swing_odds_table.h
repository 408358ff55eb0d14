#pragma once

#include <array>
#include <span>

#include "analysis/swing/swing_signs.h"

// Fitted as tests/bench/swing_odds/fit.py fits, with its seeds; points nearer than a hundredth of a sign's
// range are one. docs/formulas.md, F22. Not to be changed by hand.

namespace footing {

struct OddsPoint {
    double value;
    double log_odds;
};

inline constexpr std::array<OddsPoint, 7> odds_by_return_share{{{0, 0.00},
                                                                {0.0324, 0.09},
                                                                {0.1556, -0.50},
                                                                {0.2055, -0.57},
                                                                {0.3339, -0.61},
                                                                {0.5379, -0.92},
                                                                {0.9634, -1.46}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{0, 0.00},
                                                                   {1.104, 0.18},
                                                                   {1.127, -0.05},
                                                                   {5.356, -0.06},
                                                                   {6.929, 0.06},
                                                                   {13.48, -0.48},
                                                                   {29.93, -0.88},
                                                                   {34.92, -1.01}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_s{{{0, 0.00},
                                                            {0.1, 0.16},
                                                            {0.16, 0.22},
                                                            {0.19, 0.47},
                                                            {0.264, 0.54},
                                                            {0.27, 0.67},
                                                            {0.5408, 0.80},
                                                            {0.57, 0.62}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0.016, 0.00},
                                                           {0.09, -0.06},
                                                           {0.112, 0.02},
                                                           {0.16, 0.37},
                                                           {0.2, 0.73},
                                                           {0.23, 0.60},
                                                           {0.43, 0.08},
                                                           {0.54, -0.13}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0078, 0.00},
                                                         {0.1582, 0.45},
                                                         {0.1771, 0.76},
                                                         {0.5873, 1.32},
                                                         {0.834, 1.81},
                                                         {1.466, 2.08},
                                                         {3.628, 1.12},
                                                         {5.728, 0.69}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0008, 0.00},
                                                        {0.0079, -0.14},
                                                        {0.0274, 0.19},
                                                        {0.0391, 0.40},
                                                        {0.1028, 0.86},
                                                        {0.176, 0.58},
                                                        {0.2993, 0.86},
                                                        {0.3871, 0.92}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.05, 0.00},
                                                                 {0.3867, -0.13},
                                                                 {1.419, 1.16},
                                                                 {1.898, 1.62},
                                                                 {5.839, 1.89},
                                                                 {10.86, 2.07},
                                                                 {19.6, 2.28},
                                                                 {27.16, 2.32}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.1, -0.60},
                                                          {0.112, -0.22},
                                                          {0.13, 0.02},
                                                          {0.15, -0.37},
                                                          {0.176, -0.97},
                                                          {0.2, -1.84},
                                                          {0.52, -2.24}}};
inline constexpr std::array<OddsPoint, 5> odds_by_impulse_left{
    {{0, 0.00}, {0.2502, 1.06}, {0.2983, 1.49}, {0.6143, 1.31}, {0.9994, 0.71}}};
inline constexpr std::array<OddsPoint, 7> odds_by_unrest_after{{{0.0087, 0.00},
                                                                {0.0515, -0.34},
                                                                {0.1537, -0.05},
                                                                {0.412, -1.07},
                                                                {0.91, -2.29},
                                                                {0.9371, -2.89},
                                                                {10.62, -3.45}}};
inline constexpr std::array<OddsPoint, 7> odds_by_unrest_before{{{0.0112, 0.00},
                                                                 {0.0671, 0.45},
                                                                 {0.157, 0.21},
                                                                 {0.49, -0.60},
                                                                 {0.9949, -0.97},
                                                                 {2.127, -0.44},
                                                                 {12.22, -1.05}}};
inline constexpr std::array<OddsPoint, 7> odds_by_sink{{{-0.0795, 0.00},
                                                        {0.0637, 0.60},
                                                        {0.2758, 1.64},
                                                        {0.3575, 1.85},
                                                        {0.99, 2.49},
                                                        {2.392, 3.07},
                                                        {10.34, 3.70}}};
inline constexpr std::array<OddsPoint, 7> odds_by_rise{{{-0.321, 0.00},
                                                        {-0.015, 0.28},
                                                        {0.0138, 0.47},
                                                        {0.1168, 0.19},
                                                        {0.7477, -0.20},
                                                        {1.801, 0.10},
                                                        {12.7, 0.41}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.2383, 0.00},
                                                          {0.0972, 0.24},
                                                          {0.3641, 2.24},
                                                          {0.6006, 3.16},
                                                          {0.7618, 3.54},
                                                          {0.8468, 3.49},
                                                          {1.148, 3.94},
                                                          {6.424, 4.45}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -1.37}}};
inline constexpr std::array<OddsPoint, 7> odds_by_hold{{{-32.89, 0.00},
                                                        {-1.265, 0.25},
                                                        {0.0044, -0.09},
                                                        {0.7878, 0.22},
                                                        {0.9049, -0.06},
                                                        {1.077, 0.47},
                                                        {1.114, 0.39}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.5521, 0.00},
                                                              {-0.1629, 0.02},
                                                              {-0.011, -0.23},
                                                              {0.0671, 0.44},
                                                              {0.1342, 0.69},
                                                              {0.2493, 1.36},
                                                              {0.387, 1.47},
                                                              {0.3906, 1.00}}};
inline constexpr std::array<OddsPoint, 6> odds_by_far_share{
    {{0.1841, 0.00}, {2.399, 0.21}, {6.273, 0.53}, {12.64, 0.67}, {32.46, 0.26}, {91.24, -0.21}}};
inline constexpr std::array<OddsPoint, 7> odds_by_far_forward{{{0.4219, 0.00},
                                                               {1.985, 0.06},
                                                               {3.523, 0.13},
                                                               {5.085, 0.22},
                                                               {8.94, 0.46},
                                                               {38.31, 0.50},
                                                               {66.83, 0.50}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.31, 0.23},
                                                               {0.47, 0.62},
                                                               {0.62, 0.90},
                                                               {0.84, 0.92},
                                                               {0.98, 1.08},
                                                               {1.65, 0.83},
                                                               {1.976, 0.79}}};
inline constexpr std::array<OddsPoint, 7> odds_by_away_s{
    {{0, 0.00}, {0.07, 0.19}, {0.24, 0.59}, {0.312, 0.62}, {0.392, 0.60}, {0.65, 0.12}, {0.92, -0.42}}};
inline constexpr std::array<OddsPoint, 6> odds_by_impulse{
    {{0.0002, 0.00}, {0.0024, -0.31}, {0.0058, -0.26}, {0.0064, -0.30}, {0.023, -0.70}, {0.0412, -1.14}}};
inline constexpr std::array<OddsPoint, 6> odds_by_load_after{
    {{0.0001, 0.00}, {0.0019, 0.08}, {0.005, 0.33}, {0.0061, 0.78}, {0.0384, 0.69}, {0.0965, -0.28}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.009, 0.00},
                                                              {0.0316, 0.55},
                                                              {0.087, 2.26},
                                                              {0.1647, 2.11},
                                                              {0.1974, 1.80},
                                                              {0.3061, 1.29},
                                                              {0.5991, 0.78},
                                                              {0.6838, 0.54}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.887, 0.00},
                                                                 {1.3, 0.30},
                                                                 {1.684, 0.59},
                                                                 {1.738, 0.25},
                                                                 {1.832, -0.53},
                                                                 {2.229, -1.13},
                                                                 {8.68, -1.47},
                                                                 {27.86, -0.91}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0761, 0.00},
                                                             {0.2631, 0.56},
                                                             {0.7808, 2.23},
                                                             {1.083, 2.97},
                                                             {1.733, 3.17},
                                                             {2.867, 3.65},
                                                             {5.134, 3.76},
                                                             {6.626, 3.93}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.38, 0.00}, {0.92, -0.31}, {1.18, -0.00}, {1.5, 0.60}, {1.504, 0.72}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{-0.0035, 0.00},
                                                          {0.1127, 1.15},
                                                          {0.4288, 1.66},
                                                          {0.4741, 1.23},
                                                          {0.5492, 1.54},
                                                          {0.5669, 1.94},
                                                          {0.7354, 2.71},
                                                          {0.8283, 2.55}}};
inline constexpr std::array<OddsPoint, 7> odds_by_highest_before{{{0.2311, 0.00},
                                                                  {0.3959, -0.04},
                                                                  {0.5833, 0.33},
                                                                  {0.6714, 0.15},
                                                                  {0.7741, -0.02},
                                                                  {0.8116, -0.82},
                                                                  {1.001, -1.68}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.3028, 0.00},
                                                           {0.4571, -0.87},
                                                           {0.6895, -1.07},
                                                           {0.8277, -0.72},
                                                           {0.8757, -0.72},
                                                           {0.8897, -0.75},
                                                           {0.9774, -1.44},
                                                           {1.002, -2.86}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0007, 0.00},
                                                                 {0.0014, 0.16},
                                                                 {0.0043, 0.36},
                                                                 {0.01, 0.51},
                                                                 {0.0129, 0.76},
                                                                 {0.0178, 0.62},
                                                                 {0.0323, 0.38},
                                                                 {0.0429, 0.05}}};
inline constexpr std::array<OddsPoint, 7> odds_by_settling{{{0.1327, 0.00},
                                                            {0.4725, 0.28},
                                                            {0.4727, 0.88},
                                                            {1.568, 2.07},
                                                            {1.69, 1.87},
                                                            {9.109, 0.78},
                                                            {15.22, 1.09}}};
inline constexpr std::array<OddsPoint, 7> odds_by_back{{{-0.0053, 0.00},
                                                        {-0.0002, -0.15},
                                                        {0.0164, 0.32},
                                                        {0.0556, 0.48},
                                                        {0.0988, 0.31},
                                                        {0.2379, -0.08},
                                                        {0.823, -0.53}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.18}, {3, 0.46}, {5, 0.24}, {8, 0.06}}};
inline constexpr std::array<OddsPoint, 5> odds_by_crossings{
    {{1, 0.00}, {2, 0.57}, {3, 0.91}, {5, 0.71}, {11, 0.48}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.25, 0.00},
                                                              {-0.19, -0.44},
                                                              {-0.01, -1.39},
                                                              {0, -1.35},
                                                              {0.01, -1.28},
                                                              {0.02, -1.62},
                                                              {0.23, -2.34},
                                                              {0.25, -2.31}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -14.59;

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
