namespace ScheduleOpt.Core;

/// <summary>Electrical power. [kW]</summary>
/// <remarks><c>default</c> is zero. Wall or battery side is said by the member that holds it.</remarks>
public readonly record struct Power : IComparable<Power>
{
    private Power(double kilowatts) => Kilowatts = kilowatts;

    /// <summary>No power. [kW]</summary>
    public static Power Zero => default;

    /// <summary>The power. [kW]</summary>
    public double Kilowatts { get; }

    /// <summary>Makes a power from kilowatts.</summary>
    /// <param name="kilowatts">Any finite number. [kW]</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite.</exception>
    public static Power FromKilowatts(double kilowatts) =>
        double.IsFinite(kilowatts)
            ? new(kilowatts)
            : throw new ArgumentOutOfRangeException(nameof(kilowatts), kilowatts, "Power must be a finite number of kW.");

    /// <summary>Whether the left power is smaller. [kW]</summary>
    public static bool operator <(Power left, Power right) => left.Kilowatts < right.Kilowatts;

    /// <summary>Whether the left power is larger. [kW]</summary>
    public static bool operator >(Power left, Power right) => left.Kilowatts > right.Kilowatts;

    /// <summary>Whether the left power is smaller or equal. [kW]</summary>
    public static bool operator <=(Power left, Power right) => left.Kilowatts <= right.Kilowatts;

    /// <summary>Whether the left power is larger or equal. [kW]</summary>
    public static bool operator >=(Power left, Power right) => left.Kilowatts >= right.Kilowatts;

    /// <inheritdoc/>
    public int CompareTo(Power other) => Kilowatts.CompareTo(other.Kilowatts);
}
