namespace ScheduleOpt.Core;

/// <summary>A driven distance. [km]</summary>
/// <remarks>Never negative. <c>default</c> is zero.</remarks>
public readonly record struct Distance : IComparable<Distance>
{
    /// <summary>The international mile. [km]</summary>
    /// <remarks>NIST Special Publication 811 (2008), appendix B.8: 1 mi = 1.609 344 km exactly.</remarks>
    public const double KilometresPerMile = 1.609344;

    private Distance(double kilometres) => Kilometres = kilometres;

    /// <summary>No distance. [km]</summary>
    public static Distance Zero => default;

    /// <summary>The distance. [km]</summary>
    public double Kilometres { get; }

    /// <summary>The same distance. [mi]</summary>
    public double Miles => Kilometres / KilometresPerMile;

    /// <summary>Makes a distance from kilometres.</summary>
    /// <param name="kilometres">Zero or more, finite. [km]</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is negative or not finite.</exception>
    public static Distance FromKilometres(double kilometres) =>
        double.IsFinite(kilometres) && kilometres >= 0
            ? new(kilometres)
            : throw new ArgumentOutOfRangeException(nameof(kilometres), kilometres, "A distance must be zero or more and finite.");

    /// <summary>Makes a distance from miles.</summary>
    /// <param name="miles">Zero or more, finite. [mi]</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is negative or not finite.</exception>
    public static Distance FromMiles(double miles) => FromKilometres(miles * KilometresPerMile);

    /// <summary>Adds two distances. [km]</summary>
    public static Distance operator +(Distance left, Distance right) => new(left.Kilometres + right.Kilometres);

    /// <inheritdoc/>
    public int CompareTo(Distance other) => Kilometres.CompareTo(other.Kilometres);

    /// <summary>Whether the left distance is shorter. [km]</summary>
    public static bool operator <(Distance left, Distance right) => left.Kilometres < right.Kilometres;

    /// <summary>Whether the left distance is longer. [km]</summary>
    public static bool operator >(Distance left, Distance right) => left.Kilometres > right.Kilometres;

    /// <summary>Whether the left distance is shorter or equal. [km]</summary>
    public static bool operator <=(Distance left, Distance right) => left.Kilometres <= right.Kilometres;

    /// <summary>Whether the left distance is longer or equal. [km]</summary>
    public static bool operator >=(Distance left, Distance right) => left.Kilometres >= right.Kilometres;
}
