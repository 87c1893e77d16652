namespace ScheduleOpt.Core.Driving;

/// <summary>How much above the mean a trip's energy is planned, for a stated confidence.</summary>
public static class Confidence
{
    // Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477-484, PPND7: about 1 part in 10^7.
    private static readonly double[] CentralA = [3.3871327179, 50.434271938, 159.29113202, 59.109374720];
    private static readonly double[] CentralB = [1, 17.895169469, 78.757757664, 67.187563600];
    private static readonly double[] MiddleC = [1.4234372777, 2.7568153900, 1.3067284816, 0.17023821103];
    private static readonly double[] MiddleD = [1, 0.73700164250, 0.12021132975];
    private static readonly double[] TailE = [6.6579051150, 3.0812263860, 0.42868294337, 0.017337203997];
    private static readonly double[] TailF = [1, 0.24197894225, 0.012258202635];

    /// <summary>The factor on the mean trip energy: 1 + z * spread, where z is the normal quantile of the confidence.</summary>
    /// <param name="confidence">The share of such trips that should be covered, in [0.5, 0.999].</param>
    /// <param name="spread">Standard deviation over mean, see <see cref="Consumption.Spread"/>.</param>
    /// <example>0.9 with a spread of 0.10: 1.1282.</example>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is outside its range.</exception>
    public static double Factor(double confidence, double spread) =>
        confidence is >= 0.5 and <= 0.999
            ? 1 + (NormalQuantile(confidence) * spread)
            : throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence must lie in 0.5 to 0.999.");

    internal static double NormalQuantile(double p)
    {
        var q = p - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            var r = 0.180625 - (q * q);
            return q * Polynomial(CentralA, r) / Polynomial(CentralB, r);
        }

        var tail = Math.Sqrt(-Math.Log(q < 0 ? p : 1 - p));
        var value = tail <= 5
            ? Polynomial(MiddleC, tail - 1.6) / Polynomial(MiddleD, tail - 1.6)
            : Polynomial(TailE, tail - 5) / Polynomial(TailF, tail - 5);
        return q < 0 ? -value : value;
    }

    private static double Polynomial(double[] coefficients, double x)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }
}
