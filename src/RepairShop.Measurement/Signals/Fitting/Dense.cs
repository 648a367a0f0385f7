namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// Small symmetric positive systems, ten unknowns at most, solved some hundred times for one exposure: a Cholesky decomposition in place
/// without the allocations of a general library.
/// </summary>
internal static class Dense
{
    public static double[] Solve(double[,] matrix, double[] right)
    {
        var lower = Decompose(matrix);
        return Substitute(lower, right);
    }

    public static double[,] Inverse(double[,] matrix)
    {
        var size = matrix.GetLength(0);
        var lower = Decompose(matrix);
        var inverse = new double[size, size];
        for (var column = 0; column < size; column++)
        {
            var unit = new double[size];
            unit[column] = 1;
            var solved = Substitute(lower, unit);
            for (var row = 0; row < size; row++) inverse[row, column] = solved[row];
        }

        return inverse;
    }

    private static double[,] Decompose(double[,] matrix)
    {
        var size = matrix.GetLength(0);
        var lower = new double[size, size];
        for (var i = 0; i < size; i++)
            for (var j = 0; j <= i; j++)
            {
                var sum = matrix[i, j];
                for (var k = 0; k < j; k++) sum -= lower[i, k] * lower[j, k];
                // A direction the data say nothing about gets a step of nothing.
                lower[i, j] = i == j ? Math.Sqrt(Math.Max(sum, 1e-13 * matrix[i, i] + 1e-300)) : sum / lower[j, j];
            }

        return lower;
    }

    private static double[] Substitute(double[,] lower, double[] right)
    {
        var size = right.Length;
        var solved = (double[])right.Clone();
        for (var i = 0; i < size; i++)
        {
            for (var k = 0; k < i; k++) solved[i] -= lower[i, k] * solved[k];
            solved[i] /= lower[i, i];
        }

        for (var i = size - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < size; k++) solved[i] -= lower[k, i] * solved[k];
            solved[i] /= lower[i, i];
        }

        return solved;
    }
}
