namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// Small symmetric positive systems, twenty unknowns at most, solved some hundred times for one exposure: a Cholesky decomposition in place
/// without the allocations of a general library.
/// </summary>
internal static class Dense
{
    public static double[] Solve(double[,] matrix, double[] right)
    {
        var solved = (double[])right.Clone();
        SolveInPlace((double[,])matrix.Clone(), solved);
        return solved;
    }

    /// <summary>Solves without a copy: the matrix is spent, the right side becomes the answer.</summary>
    public static void SolveInPlace(double[,] matrix, double[] right)
    {
        Decompose(matrix);
        Substitute(matrix, right);
    }

    public static double[,] Inverse(double[,] matrix)
    {
        var size = matrix.GetLength(0);
        var (lower, inverse, column) = ((double[,])matrix.Clone(), new double[size, size], new double[size]);
        Decompose(lower);
        for (var c = 0; c < size; c++)
        {
            Array.Clear(column);
            column[c] = 1;
            Substitute(lower, column);
            for (var row = 0; row < size; row++) inverse[row, c] = column[row];
        }

        return inverse;
    }

    /// <summary>Puts the lower triangle in the place of the matrix'.</summary>
    private static void Decompose(double[,] matrix)
    {
        var size = matrix.GetLength(0);
        for (var i = 0; i < size; i++)
            for (var j = 0; j <= i; j++)
            {
                var sum = matrix[i, j];
                for (var k = 0; k < j; k++) sum -= matrix[i, k] * matrix[j, k];
                // A direction the data say nothing about gets a step of nothing.
                matrix[i, j] = i == j ? Math.Sqrt(Math.Max(sum, 1e-13 * matrix[i, i] + 1e-300)) : sum / matrix[j, j];
            }
    }

    private static void Substitute(double[,] lower, double[] solved)
    {
        var size = solved.Length;
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
    }
}
