using NodaTime;

namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>What the meter of the whole service recorded, and what must be known about it before it can say anything.</summary>
public sealed record DemandRecord
{
    /// <summary>Length of an interval; only those that divide 15 min can give the highest quarter hour.</summary>
    public required Duration Interval { get; init; }

    /// <summary>Average power of each interval in order; none where the meter has no value. [kW]</summary>
    public required IReadOnlyList<double?> AverageKw { get; init; }

    /// <summary>Whether solar, wind or any other generation is behind the meter.</summary>
    public required bool HasGeneration { get; init; }

    /// <summary>Whether a battery or other storage is behind the meter.</summary>
    public required bool HasStorage { get; init; }

    /// <summary>Whether anything limits peaks behind the meter, load management included.</summary>
    public required bool HasPeakLimiting { get; init; }

    /// <summary>Power over apparent power of the house at its peak; 0.8 to 1. Default 1, which the estimate says.</summary>
    public double PowerFactor { get; init; } = 1;

    /// <summary>Needed for a record of less than a year; none: not stated.</summary>
    public ShortRecord? Short { get; init; }

    /// <summary>What the record covers.</summary>
    public Duration Length => Interval * AverageKw.Count;

    /// <summary>The share of intervals with a value, in [0, 1].</summary>
    public double Coverage => AverageKw.Count == 0 ? 0 : (double)AverageKw.Count(k => k is not null) / AverageKw.Count;

    /// <summary>The highest average over 15 minutes; none where the intervals can't give one. [kW]</summary>
    /// <remarks>Where intervals are shorter, over every run of them that lasts 15 min, whatever the minute at which it begins.</remarks>
    public double? HighestQuarterHourKw
    {
        get
        {
            var quarter = Duration.FromMinutes(15);
            if (Interval <= Duration.Zero || quarter.TotalSeconds % Interval.TotalSeconds != 0)
            {
                return null;
            }

            var run = (int)(quarter / Interval);
            double? highest = null;
            for (var end = run; end <= AverageKw.Count; end++)
            {
                var sum = 0.0;
                for (var i = end - run; i < end; i++)
                {
                    sum += AverageKw[i] ?? double.NaN;
                }

                if (!double.IsNaN(sum))
                {
                    highest = Math.Max(highest ?? double.NegativeInfinity, sum / run);
                }
            }

            return highest;
        }
    }
}

/// <summary>The conditions under which a record of at least 30 days may stand for a year.</summary>
/// <remarks>NFPA 70 (NEC), 220.87(1), exception: recorded while the dwelling is occupied, on the highest loaded phase, with the larger of heating
/// and cooling and other seasonal loads included by measurement or calculation.</remarks>
/// <param name="WasOccupied">Whether the dwelling was occupied throughout.</param>
/// <param name="IsHighestLoadedLeg">Whether the highest loaded leg, or the whole service, was recorded.</param>
/// <param name="SeasonalKva">What must be added for heating, cooling or other seasonal loads that the record does not hold; zero where it holds
/// them; none: not stated. [kVA]</param>
public sealed record ShortRecord(bool WasOccupied, bool IsHighestLoadedLeg, double? SeasonalKva);
