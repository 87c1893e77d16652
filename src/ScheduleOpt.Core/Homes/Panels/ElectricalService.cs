namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>A dwelling's electrical service of 120/240 V, single phase: the only kind that these estimates know.</summary>
public sealed record ElectricalService
{
    /// <summary>Voltage between the two legs. [V]</summary>
    public const double VoltageV = 240;

    /// <summary>Makes a service.</summary>
    /// <param name="ratingA">Rating of the service disconnect; 30 to 1000. [A]</param>
    /// <exception cref="ArgumentOutOfRangeException">The rating is outside 30 to 1000 A.</exception>
    public ElectricalService(double ratingA)
    {
        if (ratingA is not (>= 30 and <= 1000))
        {
            throw new ArgumentOutOfRangeException(nameof(ratingA), ratingA, "A service must be rated 30 to 1000 A.");
        }

        RatingA = ratingA;
    }

    /// <summary>Rating. [A]</summary>
    public double RatingA { get; }

    /// <summary>Apparent power at the rating. [kVA]</summary>
    /// <example>200 A: 48 kVA.</example>
    public double RatingKva => RatingA * VoltageV / 1000;
}
