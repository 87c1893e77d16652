namespace ScheduleOpt.Core;

/// <summary>A temperature of the air round the car. [degC]</summary>
/// <remarks><c>default</c> is 0 degC. Any finite number is accepted here; documents are held to -60 to 60 degC when they are read.</remarks>
public readonly record struct Temperature : IComparable<Temperature>
{
    private Temperature(double celsius) => Celsius = celsius;

    /// <summary>The temperature. [degC]</summary>
    public double Celsius { get; }

    /// <summary>The same temperature. [degF]</summary>
    public double Fahrenheit => (Celsius * 1.8) + 32;

    /// <summary>Makes a temperature from degrees Celsius.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite.</exception>
    public static Temperature FromCelsius(double celsius) =>
        double.IsFinite(celsius)
            ? new(celsius)
            : throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "A temperature must be a finite number.");

    /// <summary>Makes a temperature from degrees Fahrenheit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite.</exception>
    public static Temperature FromFahrenheit(double fahrenheit) => FromCelsius((fahrenheit - 32) / 1.8);

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => Celsius.CompareTo(other.Celsius);

    /// <summary>Whether the left temperature is lower. [degC]</summary>
    public static bool operator <(Temperature left, Temperature right) => left.Celsius < right.Celsius;

    /// <summary>Whether the left temperature is higher. [degC]</summary>
    public static bool operator >(Temperature left, Temperature right) => left.Celsius > right.Celsius;

    /// <summary>Whether the left temperature is lower or equal. [degC]</summary>
    public static bool operator <=(Temperature left, Temperature right) => left.Celsius <= right.Celsius;

    /// <summary>Whether the left temperature is higher or equal. [degC]</summary>
    public static bool operator >=(Temperature left, Temperature right) => left.Celsius >= right.Celsius;
}
